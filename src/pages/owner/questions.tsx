/** What was asked and what the shop replied; and one more question. */
import { type EstimateView, OWNER_PATHS } from "./view.js";

export const Questions = ({ view }: { view: EstimateView }) => {
  const { questions, typed, wrong, paper } = view;
  const fault = wrong.find(({ field }) => field === "text")?.text;
  return (
    <section class="questions" aria-labelledby="questions-name">
      <h2 id="questions-name">Questions</h2>
      {questions.map(({ at, text, replies }) => (
        <article class="asked">
          <p class="hint">You asked, {at}</p>
          <p class="as-typed">{text}</p>
          {replies.length === 0 ? <p class="hint">Not answered yet.</p> : null}
          {replies.map((reply) => (
            <div class="reply">
              <p class="hint">
                {reply.by} replied, {reply.at}
              </p>
              <p class="as-typed">{reply.text}</p>
            </div>
          ))}
        </article>
      ))}
      <form method="post" action={OWNER_PATHS.question} class="screen" novalidate>
        <input type="hidden" name="hash" value={paper.contentHash} />
        <div class={fault ? "field field-wrong" : "field"}>
          <label for="question">{questions.length === 0 ? "Ask us something" : "Ask something else"}</label>
          <p class="hint" id="question-hint">
            We reply here, on this page. A question is not an answer to the estimate.
          </p>
          {fault ? (
            <p class="wrong" id="question-wrong">
              <span class="unseen">Error: </span>
              {fault}
            </p>
          ) : null}
          <textarea
            id="question"
            name="text"
            rows={3}
            aria-describedby={fault ? "question-hint question-wrong" : "question-hint"}
            {...(fault ? { "aria-invalid": "true" } : {})}
          >
            {typed?.question ?? ""}
          </textarea>
        </div>
        <p class="actions">
          <button type="submit">Send the question</button>
        </p>
      </form>
    </section>
  );
};
