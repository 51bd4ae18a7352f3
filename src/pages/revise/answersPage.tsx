/** What the owner answered to each revision, what was asked, and the form that puts a spoken or written answer on record. */
import { money } from "../../wording/figures.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { AnswerForm, type AnswerFormProps } from "./answerForm.js";
import { JobFramed, type JobHead } from "./jobFrame.js";

export interface AnswerRow {
  readonly id: string;
  readonly revision: number;
  readonly answer: "agreed" | "part agreed" | "declined";
  readonly by: string;
  readonly given: string;
  readonly channel: string;
  readonly wording: string;
  readonly amount?: number;
  readonly ceiling?: number;
  /** Where the link it came through went. */
  readonly deliveredTo?: string;
  readonly address?: string;
  readonly agent?: string;
  /** Who put it on record, and when, where that was not the owner. */
  readonly recorded?: string;
  readonly writing?: string;
  /** Label and text of each particular of a spoken answer. */
  readonly spoken: readonly (readonly [label: string, text: string])[];
  readonly reason?: string;
  /** The last day of the offer, where it was agreed to after that. */
  readonly ended?: string;
  /** It corrects another record. */
  readonly correction: boolean;
  /** No other record corrects it. */
  readonly stands: boolean;
  readonly contentHash: string;
  readonly pdfHash: string;
}

interface AnswersPageProps {
  readonly errors: ReadonlyMap<string, string>;
  readonly replyTo: (question: string) => AskedForm;
  readonly frame: Frame;
  readonly script: string;
  readonly job: JobHead;
  readonly tongue: Tongue;
  /** Newest first. */
  readonly answers: readonly AnswerRow[];
  readonly questions: readonly QuestionRow[];
  /** Absent: nothing is issued, so nothing can be answered. */
  readonly form?: AnswerFormProps;
  readonly say?: string | undefined;
}

export const AnswersPage = (props: AnswersPageProps) => {
  const { frame, job, answers, questions, form, errors, say, tongue } = props;
  return (
    <JobFramed frame={frame} job={job} title="Answers and questions" wrong={errors.size > 0} script={props.script}>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      {answers.length === 0 ? (
        <p class="empty">
          No answer yet. Where a link was made, the owner answers on its page; an answer given in person, by telephone or by
          e-mail is put on record below.
        </p>
      ) : (
        answers.map((answer) => <Answer answer={answer} tongue={tongue} job={job} />)
      )}
      {form ? <AnswerForm {...form} /> : null}
      <Questions job={job} questions={questions} replyTo={props.replyTo} />
    </JobFramed>
  );
};

const SAID = { agreed: "agreed", "part agreed": "agreed in part", declined: "declined" } as const;

const Answer = ({ answer, tongue, job }: { answer: AnswerRow; tongue: Tongue; job: JobHead }) => (
  <article class={answer.stands ? "record" : "record record-corrected"} id={`answer-${answer.id}`}>
    <h2>
      {`Revision ${answer.revision}: ${SAID[answer.answer]}`} {answer.stands ? null : <span class="tag">corrected since</span>}
      {answer.correction ? <span class="tag">a correction</span> : null}
    </h2>
    <p>
      {answer.by}, {answer.recorded && answer.spoken.length === 0 ? "" : `${answer.given}, `}
      {answer.channel}
      {answer.recorded ? `; put on record by ${answer.recorded}` : ""}.
      {answer.amount === undefined ? "" : ` Total ${money(answer.amount, tongue)}`}
      {answer.amount === undefined || answer.ceiling === undefined ? "" : `, ceiling ${money(answer.ceiling, tongue)}.`}
    </p>
    {answer.ended ? <p>The offer had ended on {answer.ended}; it was taken all the same.</p> : null}
    {answer.reason ? <p>Why it was corrected: {answer.reason}</p> : null}
    <blockquote>{answer.wording}</blockquote>
    <details class="fold">
      <summary>The record</summary>
      <dl class="plain">
        {[
          ...answer.spoken,
          ["The writing", answer.writing],
          ["Link given", answer.deliveredTo],
          ["Network address", answer.address],
          ["Program", answer.agent],
          ["SHA-256 of the revision", answer.contentHash],
          ["SHA-256 of its PDF", answer.pdfHash],
        ].map(([label, text]) =>
          text ? (
            <div>
              <dt>{label}</dt>
              <dd class="hash">{text}</dd>
            </div>
          ) : null,
        )}
      </dl>
    </details>
    {answer.stands ? (
      <p>
        <a href={`/jobs/${job.id}/answers?corrects=${encodeURIComponent(answer.id)}#record`}>
          {answer.answer === "declined" ? "Correct this answer" : "Correct this answer, or record that the owner takes it back"}
        </a>
      </p>
    ) : null}
  </article>
);

/** What owners asked on their page, each with a box to reply in. */
interface QuestionRow {
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

const Questions = ({ job, questions, replyTo }: QuestionsProps) => (
  <section id="questions" aria-labelledby="questions-name">
    <h2 id="questions-name">Questions</h2>
    {questions.length === 0 ? (
      <p class="empty">No questions yet. With a link, the owner can ask on the estimate's page.</p>
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
          <Ask form={replyTo(id)} name="text" id={`text.${id}`} {...(replies.length > 0 && { label: "Reply again" })} rows={2} />
          <Ask form={replyTo(id)} name="by" id={`by.${id}`} size="word" autocomplete="name" />
          <p class="actions">
            <button type="submit">Send the reply</button>
          </p>
        </form>
      </article>
    ))}
  </section>
);
