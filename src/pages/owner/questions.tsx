/** What was asked and what the shop replied; and one more question. */
import { Field, ties } from "../frame/field.js";
import { type EstimateView, OWNER_PATHS } from "./view.js";

export const Questions = ({ view }: { view: EstimateView }) => {
  const { questions, typed, wrong } = view;
  const fault = wrong.find(({ field }) => field === "text")?.text;
  const field = {
    name: "question",
    hint: "We reply here, on this page. A question is not an answer to the estimate.",
    errors: new Map(fault ? [["question", fault]] : []),
  };
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
      {/* Of the answer's form, so that ticks and name stay. */}
      <div class="screen">
        <Field {...field} label={questions.length === 0 ? "Ask us something" : "Ask something else"}>
          <textarea id="question" name="text" rows={3} {...ties(field)}>
            {typed?.question ?? ""}
          </textarea>
        </Field>
        <p class="actions">
          <button type="submit" formaction={OWNER_PATHS.question}>
            Send the question
          </button>
        </p>
      </div>
    </section>
  );
};
