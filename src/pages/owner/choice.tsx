/** What the owner may choose, and what may be left out. A set is priced as a whole: members share what they need. */
import { signedMoney } from "../../wording/change.js";
import { chance, money } from "../../wording/figures.js";
import { key } from "../form/fields.js";
import { Box } from "../frame/field.js";
import { figures, Table } from "../frame/table.js";
import { textsOf } from "./ownerFrame.js";
import { type EstimateView, OWNER_PATHS, type OwnerGroup, type OwnerWork } from "./view.js";

/** Sets side by side: a button that ticks the options of one, with what all comes to then. */
export const Packages = ({ view }: { view: EstimateView }) => {
  const { packages, tongue, state } = view;
  const texts = textsOf(view).choice;
  return packages.length === 0 ? null : (
    <section id="packages" data-follows aria-labelledby="packages-name">
      <h2 id="packages-name">{texts.packages}</h2>
      <p class="hint">{texts.packagesHint(state.is === "open")}</p>
      <ul class="packages">
        {packages.map(({ name, names, total, chosen }, at) => (
          <li class={chosen ? "card chosen" : "card"} {...(chosen && { tabindex: -1 })}>
            <h3>{name}</h3>
            <p class="package-total">
              <strong>{money(total, tongue)}</strong>
            </p>
            {names.length === 0 ? (
              <p class="hint">{texts.noOptions}</p>
            ) : (
              <ul>
                {names.map((option) => (
                  <li>{option}</li>
                ))}
              </ul>
            )}
            {chosen ? (
              <p>
                <span class="tag tag-on">{texts.taken}</span>
              </p>
            ) : state.is === "open" ? (
              <button type="submit" formaction={OWNER_PATHS.price} name="package" value={String(at)}>
                {texts.pick(name)}
              </button>
            ) : null}
          </li>
        ))}
      </ul>
    </section>
  );
};

export const Options = ({ view }: { view: EstimateView }) => {
  const { sheet, state } = view;
  const texts = textsOf(view).choice;
  if (sheet.options.length === 0) return null;
  const open = state.is === "open";
  return (
    <fieldset class="part" id="chosen">
      <legend>{texts.name}</legend>
      <p class="hint">
        {open ? texts.tick : ""}
        {texts.shared}
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
  const texts = textsOf(view).choice;
  return (
    <div class="field tick option">
      {open ? (
        <input type="checkbox" id={id} name="chosen" value={option.id} checked={chosen} aria-describedby={`${id}-price`} />
      ) : null}
      <label for={id}>
        {open ? null : <span class={chosen ? "tag tag-on" : "tag"}>{chosen ? texts.taken : texts.left}</span>}{" "}
        {option.names.join("; ")}
        {option.reason ? <span class="why"> {option.reason}</span> : null}
        {option.refused ? <span class="why"> {option.refused}</span> : null}
      </label>
      <span class="option-price" id={`${id}-price`} data-follows>
        {chosen ? money(option.price, view.tongue) : signedMoney(option.price, view.tongue)}
        <span class="hint">{` ${chosen ? texts.inTotal : texts.toTotal}`}</span>
      </span>
    </div>
  );
};

/** All work there is to agree to. Taking a tick away leaves that work out. */
export const Work = ({ view }: { view: EstimateView }) => {
  const { work, state, wrong } = view;
  const texts = textsOf(view).choice;
  if (work.length === 0 || state.is !== "open") return null;
  const { more, less, totals } = view.sheet;
  const { tax, pricesIncludeTax } = totals;
  const beforeTax = tax !== 0 && !pricesIncludeTax;
  const certain = work.filter(({ ifFound }) => !ifFound);
  const possible = work.filter(({ ifFound }) => ifFound);
  const allCovered = possible.every(({ covered }) => covered);
  return (
    <details class="fold" id="work" open={work.length <= SHORT || wrong.some(({ field }) => field === "struck")}>
      <summary>
        {texts.work}{" "}
        <span id="work-ticked" data-follows>
          {texts.ticked(work.length - view.choice.struck.length, work.length)}
        </span>
      </summary>
      {/* Also where every tick is taken away. */}
      <input type="hidden" name="work" value="" />
      <fieldset>
        <legend class="unseen">{texts.workToDo}</legend>
        <p class="hint">{texts.workHint(beforeTax, more.join(", "), less.join(", "))}</p>
        {certain.map((one) => (
          <WorkTick view={view} work={one} />
        ))}
        {possible.length > 0 ? <p class="hint">{allCovered ? texts.onlyIfCovered : texts.onlyIf}</p> : null}
        {possible.map((one) => (
          <WorkTick view={view} work={one} />
        ))}
      </fieldset>
    </details>
  );
};

/** More than this, and the list starts folded. */
const SHORT = 15;

const WorkTick = ({ view, work }: { view: EstimateView; work: OwnerWork }) => {
  const { id, title, reason, ifFound, covered, amount: issued } = work;
  const own = `work.${key(id)}`;
  // As it is said above, beside the set that is ticked.
  const now = ifFound ? view.sheet.ifFound.find((group) => group.id === id && group.names.length === 1) : undefined;
  const amount = now?.price ?? issued;
  const price = covered ? textsOf(view).choice.coveredShort : amount === undefined ? undefined : money(amount, view.tongue);
  return (
    <div class="field tick option">
      <input
        type="checkbox"
        id={own}
        name="work"
        value={id}
        checked={!view.choice.struck.includes(id)}
        {...(price !== undefined && { "aria-describedby": `${own}-price` })}
      />
      <label for={own}>
        {title}
        {reason ? <span class="why"> {reason}</span> : null}
      </label>
      {price === undefined ? null : (
        <span class="option-price" id={`${own}-price`} data-follows>
          {price}
        </span>
      )}
    </div>
  );
};

/** The answer: a typed name and a button that says the act and its amount. Nothing is sent before it was checked on a page of its own. */
export const YourAnswer = ({ view }: { view: EstimateView }) => {
  const { state, typed, wrong } = view;
  const texts = textsOf(view).answer;
  const fault = wrong.find(({ field }) => field === "name")?.text;
  const open = state.is === "open";
  return (
    <fieldset class="part screen" id="your-answer">
      <legend>{texts.name}</legend>
      {open ? <p class="hint">{texts.hint}</p> : null}
      <Box
        name="name"
        label={texts.fullName}
        hint={texts.fullNameHint}
        size="word"
        autocomplete="name"
        fields={new Map([["name", typed?.name ?? ""]])}
        errors={new Map(fault ? [["name", fault]] : [])}
      />
      <p class="actions" id="answers" data-follows>
        {/* With no tick left there is nothing to agree to. */}
        {open && (view.work.length === 0 || view.choice.struck.length < view.work.length) ? (
          <button type="submit" name="answer" value="agreed" class="primary">
            {agreeText(view)}
          </button>
        ) : null}
        <a class="button" href="#question">
          {texts.ask}
        </a>
        <button type="submit" name="answer" value="declined">
          {declineText(view)}
        </button>
      </p>
    </fieldset>
  );
};

/** What a button does, and at what amount. */
export const agreeText = (view: EstimateView): string => {
  const texts = textsOf(view).answer;
  const amount = money(view.sheet.totals.total, view.tongue);
  return view.choice.struck.length === 0 ? texts.agree(amount) : texts.agreeInPart(amount);
};

export const declineText = (view: EstimateView): string => {
  const texts = textsOf(view).answer;
  return view.earlier === undefined
    ? (view.begun ? texts.decline : texts.declineUnopened)(money(view.sheet.ifDeclined, view.tongue))
    : texts.declineRevision(view.paper.revision, view.earlier.revision);
};

export const IfFound = ({ view }: { view: EstimateView }) => {
  const { sheet, tongue } = view;
  const texts = textsOf(view).choice;
  return sheet.ifFound.length === 0 ? null : (
    <section id="if-found" data-follows aria-labelledby="if-found-name">
      <h2 id="if-found-name">{texts.ifFound}</h2>
      <p class="hint">
        {sheet.ifFound.every(({ covered }) => covered) ? texts.covered : texts.notCovered}
        {sheet.couldPass ? ` ${sheet.couldPass}` : ""}
      </p>
      <ul class="rows">
        {sheet.ifFound.map(({ names, reason, price, covered, probability }) => (
          <li class="entry">
            <span class="entry-name">
              {names.join("; ")}
              {reason ? <span class="why"> {reason}</span> : null}{" "}
              {probability === undefined ? null : <span class="tag">{texts.chance(chance(probability, tongue.locale))}</span>}
            </span>
            <span class="entry-amount">{covered ? texts.coveredShort : money(price, tongue)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
};

/** Not part of the offer: what would be worth doing while the unit is open. */
export const WorthDoing = ({ view }: { view: EstimateView }) => {
  const { sheet, tongue } = view;
  const texts = textsOf(view).choice;
  return sheet.worthDoing.length === 0 ? null : (
    <section id="worth-doing" data-follows aria-labelledby="worth-doing-name">
      <h3 id="worth-doing-name">{texts.worthDoing}</h3>
      <p class="hint">{texts.worthDoingHint}</p>
      <Table
        class="lines"
        caption={texts.worthDoingCaption}
        heads={[texts.workHead, ...figures(texts.now, texts.later)]}
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
};
