/** What was asked and what the shop replied; and one more question. */
import { Field, ties } from "../frame/field.js";
import { textsOf } from "./ownerFrame.js";
import { type EstimateView, OWNER_PATHS } from "./view.js";

export const Questions = ({ view }: { view: EstimateView }) => {
  const { questions, typed, wrong } = view;
  const texts = textsOf(view).questions;
  const fault = wrong.find(({ field }) => field === "text")?.text;
  const field = {
    name: "question",
    hint: texts.hint,
    errors: new Map(fault ? [["question", fault]] : []),
  };
  return (
    <section class="questions" aria-labelledby="questions-name">
      <h2 id="questions-name">{texts.name}</h2>
      {questions.map(({ at, text, replies }) => (
        <article class="asked">
          <p class="hint">{texts.asked(at)}</p>
          <p class="as-typed">{text}</p>
          {replies.length === 0 ? <p class="hint">{texts.notYet}</p> : null}
          {replies.map((reply) => (
            <div class="reply">
              <p class="hint">{texts.replied(reply.by, reply.at)}</p>
              <p class="as-typed">{reply.text}</p>
            </div>
          ))}
        </article>
      ))}
      {/* Of the answer's form, so that ticks and name stay. */}
      <div class="screen">
        <Field {...field} label={questions.length === 0 ? texts.first : texts.more}>
          <textarea id="question" name="text" rows={3} {...ties(field)}>
            {typed?.question ?? ""}
          </textarea>
        </Field>
        <p class="actions">
          <button type="submit" formaction={OWNER_PATHS.question}>
            {texts.send}
          </button>
        </p>
      </div>
    </section>
  );
};
