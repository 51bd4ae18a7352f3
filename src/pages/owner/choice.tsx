/** What the owner may choose, and what may be left out. A set is priced as a whole: members share what they need. */
import { signedMoney } from "../../wording/change.js";
import { chance, money } from "../../wording/figures.js";
import { key } from "../form/fields.js";
import { Box } from "../frame/field.js";
import { figures, Table } from "../frame/table.js";
import type { EstimateView, OwnerGroup, OwnerWork } from "./view.js";

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
        {option.refused ? <span class="why"> {option.refused}</span> : null}
      </label>
      <span class="option-price" id={`${id}-price`} data-follows>
        {chosen ? money(option.price, view.tongue) : signedMoney(option.price, view.tongue)}
        <span class="hint">{chosen ? " in the total" : " to the total"}</span>
      </span>
    </div>
  );
};

/** All work there is to agree to. Taking a tick away leaves that work out. */
export const Work = ({ view }: { view: EstimateView }) => {
  const { work, state, wrong } = view;
  if (work.length === 0 || state.is !== "open") return null;
  const certain = work.filter(({ ifFound }) => !ifFound);
  const possible = work.filter(({ ifFound }) => ifFound);
  return (
    <details class="fold" id="work" open={work.length <= SHORT || wrong.some(({ field }) => field === "struck")}>
      <summary>The work, piece by piece ({work.length})</summary>
      {/* Also where every tick is taken away. */}
      <input type="hidden" name="work" value="" />
      <fieldset>
        <legend class="unseen">The work to be done</legend>
        <p class="hint">
          All of it is ticked. Take a tick away to leave that work out; the total follows. Openings and what several works share
          come on top of the amounts here. Leaving work out may leave the fault in; ask us if you are not sure.
        </p>
        {certain.map((one) => (
          <WorkTick view={view} work={one} />
        ))}
        {possible.length > 0 ? <p class="hint">Only if it proves necessary, and not in the total:</p> : null}
        {possible.map((one) => (
          <WorkTick view={view} work={one} />
        ))}
      </fieldset>
    </details>
  );
};

/** More than this, and the list starts folded. */
const SHORT = 15;

const WorkTick = ({ view, work: { id, title, reason, amount } }: { view: EstimateView; work: OwnerWork }) => {
  const own = `work.${key(id)}`;
  return (
    <div class="field tick option">
      <input
        type="checkbox"
        id={own}
        name="work"
        value={id}
        checked={!view.choice.struck.includes(id)}
        {...(amount !== undefined && { "aria-describedby": `${own}-price` })}
      />
      <label for={own}>
        {title}
        {reason ? <span class="why"> {reason}</span> : null}
      </label>
      {amount === undefined ? null : (
        <span class="option-price" id={`${own}-price`}>
          {money(amount, view.tongue)}
        </span>
      )}
    </div>
  );
};

/** The answer: a typed name and a button that says the act and its amount. Nothing is sent before it was checked on a page of its own. */
export const YourAnswer = ({ view }: { view: EstimateView }) => {
  const { state, typed, wrong } = view;
  const fault = wrong.find(({ field }) => field === "name")?.text;
  const open = state.is === "open";
  return (
    <fieldset class="part screen" id="your-answer">
      <legend>Your answer</legend>
      {open ? <p class="hint">It is for what is ticked above. You see it once more before it is sent.</p> : null}
      <Box
        name="name"
        label="Your full name"
        hint="It stands for your signature."
        size="word"
        autocomplete="name"
        fields={new Map([["name", typed?.name ?? ""]])}
        errors={new Map(fault ? [["name", fault]] : [])}
      />
      <p class="actions" id="answers" data-follows>
        {open ? (
          <button type="submit" name="answer" value="agreed" class="primary">
            {agreeText(view)}
          </button>
        ) : null}
        <button type="submit" name="answer" value="declined">
          {declineText(view)}
        </button>
      </p>
    </fieldset>
  );
};

/** What a button does, and at what amount. */
export const agreeText = ({ choice, sheet, tongue }: EstimateView): string => {
  const amount = money(sheet.totals.total, tongue);
  return choice.struck.length === 0 ? `Agree to this work for ${amount}` : `Agree to part of the work, for ${amount}`;
};

export const declineText = ({ earlier, sheet, tongue, paper }: EstimateView): string =>
  earlier === undefined
    ? `Decline, and owe ${money(sheet.ifDeclined, tongue)} at most`
    : `Decline revision ${paper.revision}; revision ${earlier} stands`;

export const IfFound = ({ view: { sheet, tongue } }: { view: EstimateView }) =>
  sheet.ifFound.length === 0 ? null : (
    <section id="if-found" data-follows aria-labelledby="if-found-name">
      <h2 id="if-found-name">What we may find</h2>
      <p class="hint">
        {sheet.ifFound.every(({ covered }) => covered)
          ? "The fixed price covers it: it is done when it proves necessary, and you pay no more for it."
          : "Not in the total. Agreeing covers it: it is done and charged only if it proves necessary, and never past the ceiling."}
        {sheet.couldPass ? ` ${sheet.couldPass}` : ""}
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

/** Not part of the offer: what would be worth doing while the unit is open. */
export const WorthDoing = ({ view: { sheet, tongue } }: { view: EstimateView }) =>
  sheet.worthDoing.length === 0 ? null : (
    <section id="worth-doing" data-follows aria-labelledby="worth-doing-name">
      <h2 id="worth-doing-name">Worth doing while it is open</h2>
      <p class="hint">Not part of this estimate. If you want any of it, ask us below, and we put it into a new revision.</p>
      <Table
        class="lines"
        caption="What it would come to now and at a later visit, tax included"
        heads={["Work", ...figures("Now", "At a later visit")]}
        rows={sheet.worthDoing.map(({ name, reason, now, later }) => [
          <>
            {name} <span class="why">{reason}</span>
          </>,
          money(now, tongue),
          money(later, tongue),
        ])}
      />
    </section>
  );
