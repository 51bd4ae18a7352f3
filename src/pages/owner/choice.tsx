/** What the owner may choose, and what may be left out. A set is priced as a whole: members share what they need. */
import { signedMoney } from "../../wording/change.js";
import { chance, money } from "../../wording/figures.js";
import { key } from "../form/fields.js";
import { Box, Tick } from "../frame/field.js";
import type { EstimateView, OwnerGroup } from "./view.js";

export const Options = ({ view }: { view: EstimateView }) => {
  const { sheet, state } = view;
  if (sheet.options.length === 0) return null;
  const open = state.is === "open";
  return (
    <fieldset class="part" id="chosen">
      <legend>Your choice</legend>
      <p class="hint">
        {open ? "Tick what you want. " : ""}Options share work, so each price goes with the others as they are ticked; the total
        is worked out for the whole set.
      </p>
      {sheet.options.map((option) => (
        <Option view={view} option={option} open={open} />
      ))}
    </fieldset>
  );
};

const Option = ({ view, option, open }: { view: EstimateView; option: OwnerGroup; open: boolean }) => {
  const id = `chosen.${key(option.id)}`;
  const chosen = view.choice.chosen.includes(option.id);
  return (
    <div class="field tick option">
      {open ? (
        <input type="checkbox" id={id} name="chosen" value={option.id} checked={chosen} aria-describedby={`${id}-price`} />
      ) : null}
      <label for={id}>
        {open ? null : <span class={chosen ? "tag tag-on" : "tag"}>{chosen ? "taken" : "left"}</span>} {option.names.join("; ")}
        {option.reason ? <span class="why"> {option.reason}</span> : null}
      </label>
      <span class="option-price" id={`${id}-price`} data-follows>
        {chosen ? money(option.price, view.tongue) : signedMoney(option.price, view.tongue)}
        <span class="hint">{chosen ? " in the total" : " to the total"}</span>
      </span>
    </div>
  );
};

export const Strikes = ({ view: { work, choice, wrong } }: { view: EstimateView }) =>
  work.length === 0 ? null : (
    <details class="fold" id="struck" open={choice.struck.length > 0 || wrong.some(({ field }) => field === "struck")}>
      <summary>Leave some of the work out</summary>
      <fieldset>
        <legend class="unseen">Work to leave out</legend>
        <p class="hint">
          Tick what you do not want. You then agree in part, and we do the rest. Leaving work out may leave the fault in; ask us
          if you are not sure.
        </p>
        {work.map(({ id, title, ifFound }) => (
          <Tick
            id={`struck.${key(id)}`}
            name="struck"
            value={id}
            checked={choice.struck.includes(id)}
            label={
              <>
                {title}
                {ifFound ? <span class="why"> if found</span> : null}
              </>
            }
          />
        ))}
      </fieldset>
    </details>
  );

/** The answer: a typed name and a button. Nothing is sent before it was checked on a page of its own. */
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
