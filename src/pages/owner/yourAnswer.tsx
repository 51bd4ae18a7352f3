/** The answer: a typed name and a button. Nothing is sent before it was checked on a page of its own. */
import { chance, money } from "../../wording/figures.js";
import { Box } from "../frame/field.js";
import type { EstimateView } from "./view.js";

export const YourAnswer = ({ view }: { view: EstimateView }) => {
  const { state, sheet, tongue, typed, wrong } = view;
  const fault = wrong.find(({ field }) => field === "name")?.text;
  const open = state.is === "open";
  return (
    <fieldset class="part screen" id="your-answer">
      <legend>Your answer</legend>
      {open ? (
        <p id="answer-to" data-follows>
          You answer for what is ticked above: <strong>{money(sheet.totals.total, tongue)}</strong>, with a ceiling of{" "}
          {money(sheet.ceiling, tongue)}. You see it once more before it is sent.
        </p>
      ) : null}
      <Box
        name="name"
        label="Your full name"
        hint="It stands for your signature."
        size="word"
        autocomplete="name"
        fields={new Map([["name", typed?.name ?? ""]])}
        errors={new Map(fault ? [["name", fault]] : [])}
      />
      <p class="actions">
        {open ? (
          <button type="submit" name="answer" value="agreed" class="primary">
            Agree to what is ticked
          </button>
        ) : null}
        <button type="submit" name="answer" value="declined">
          Decline
        </button>
      </p>
    </fieldset>
  );
};

export const IfFound = ({ view: { sheet, tongue } }: { view: EstimateView }) =>
  sheet.ifFound.length === 0 ? null : (
    <section id="if-found" data-follows aria-labelledby="if-found-name">
      <h2 id="if-found-name">What we may find</h2>
      <p class="hint">
        {sheet.ifFound.every(({ covered }) => covered)
          ? "The fixed price covers it: it is done when it proves necessary, and you pay no more for it."
          : "Not in the total. Agreeing covers it: it is done and charged only if it proves necessary, and never past the ceiling."}
      </p>
      <ul class="rows">
        {sheet.ifFound.map(({ names, reason, price, covered, probability }) => (
          <li class="entry">
            <span class="entry-name">
              {names.join("; ")}
              {reason ? <span class="why"> {reason}</span> : null}{" "}
              {probability === undefined ? null : <span class="tag">chance {chance(probability, tongue.locale)}</span>}
            </span>
            <span class="entry-amount">{covered ? "covered" : money(price, tongue)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
