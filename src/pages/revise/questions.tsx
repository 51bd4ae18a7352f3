/** What owners asked on their page, each with a box to reply in. */
import { Ask, type AskedForm } from "../frame/ask.js";
import type { JobHead } from "./jobFrame.js";

export interface QuestionRow {
  readonly id: string;
  readonly at: string;
  readonly revision: number;
  readonly text: string;
  readonly replies: readonly { readonly at: string; readonly by: string; readonly text: string }[];
}

interface QuestionsProps {
  readonly job: JobHead;
  readonly questions: readonly QuestionRow[];
  /** The form that replies to one. */
  readonly replyTo: (question: string) => AskedForm;
}

export const Questions = ({ job, questions, replyTo }: QuestionsProps) => (
  <section id="questions" aria-labelledby="questions-name">
    <h2 id="questions-name">Questions</h2>
    {questions.length === 0 ? (
      <p class="empty">The owner can ask on the page that the link opens; nothing was asked yet.</p>
    ) : null}
    {questions.map(({ id, at, revision, text, replies }) => (
      <article class="asked">
        <p class="hint">
          {at}, on revision {revision}
        </p>
        <p class="as-typed">{text}</p>
        {replies.map((reply) => (
          <div class="reply">
            <p class="hint">
              {reply.by}, {reply.at}
            </p>
            <p class="as-typed">{reply.text}</p>
          </div>
        ))}
        <form method="post" action={`/jobs/${job.id}/questions/${id}/replies`} novalidate>
          <input type="hidden" name="token" value={replyTo(id).fields.get("token")} />
          <Ask
            form={replyTo(id)}
            name="text"
            id={`text.${id}`}
            {...(replies.length > 0 && { label: "Reply once more" })}
            rows={2}
          />
          <Ask form={replyTo(id)} name="by" id={`by.${id}`} size="word" autocomplete="name" />
          <p class="actions">
            <button type="submit">Send the reply</button>
          </p>
        </form>
      </article>
    ))}
  </section>
);
