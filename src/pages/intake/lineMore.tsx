/** What few lines need: own words or another price, a group, the original part. */
import { HAZARDS } from "../../estimating/lists.js";
import { money } from "../../wording/figures.js";
import { listed } from "../../wording/list.js";
import { offered } from "../../wording/rateBookParts.js";
import { ownMarginText, stateOptions } from "../../wording/risk.js";
import { COST_IS } from "../../wording/saying.js";
import { idOf } from "../form/fields.js";
import { labelOf } from "../form/label.js";
import { ties, Wrong } from "../frame/field.js";
import { Small } from "./field.js";
import type { IntakeView } from "./view.js";

const TIMES = ["low", "likely", "high"] as const;
const PART = ["why", "like", "source", "state", "days", "pack", "minPacks", "good"] as const;
const ORIGINAL = ["originalType", "originalValue", "originalVolts", "workingVolts", "tolerance", "audio"] as const;
const MORE = [...TIMES, "price", "labour", "ownHazards", "cost", "brought", "keep", ...PART, "group", ...ORIGINAL];

export const isWrongInMore = (view: IntakeView, field: string): boolean =>
  ["operation", "part", "assembly", "reason", ...MORE].some((leaf) => view.errors.has(`${field}.${leaf}`));

export const LineMore = ({ view, row }: { view: IntakeView; row: string }) => {
  const field = `line.${row}`;
  const small = (leaf: string, label: string) => ({ view, name: `${field}.${leaf}`, label });
  const pick = (leaf: string, label: string, options: Options) => <Choose {...small(leaf, label)} options={options} />;
  return (
    <div class="more" id={`more-${row}`}>
      <div class="row">
        <Small {...small("assembly", "Where")} list="assemblies" />
        <button type="submit" name="intent" value={`raise line:${row}`} class="quiet">
          Move up
        </button>
        <button type="submit" name="intent" value={`lower line:${row}`} class="quiet">
          Move down
        </button>
      </div>
      <fieldset class="more-part">
        <legend>The work: your own minutes, or your own words and a price</legend>
        <div class="row">
          <Small {...small("likely", "Minutes each")} figure />
          <Small {...small("low", "At best")} figure />
          <Small {...small("high", "At worst")} figure />
          <Small {...small("price", "Fixed price each")} figure />
          {pick("labour", "Charged as", [
            ["", "as opening is"],
            ...offered(view.context.rateBook.labourClasses, ({ id }) => id === view.fields.get(`${field}.labour`)).map(
              ({ id, name }) => [id, name] as const,
            ),
          ])}
          <Small {...small("group", "Group: found or chosen together")} />
          {pick("ownHazards", "Its danger", dangers(view.fields.get(`${field}.ownHazards`)))}
        </div>
      </fieldset>
      <fieldset class="more-part">
        <legend>The part: in your own words, or at another price</legend>
        <div class="row">
          <Small {...small("cost", "One costs")} figure />
          <Small {...small("source", "Bought from")} />
          <Small {...small("why", "Why that price")} grow />
          <TickSmall {...small("brought", "The owner brings it")} />
        </div>
        <p class="hint">What one costs: {COST_IS.toLowerCase()} Why that price is printed on the owner's papers.</p>
        <p class="hint margin" id={`${field}.margin`} role="status">
          {marginOf(view, row)}
        </p>
        <div class="row">
          <Small {...small("like", "Fitted like")} list="types" />
          {pick("state", "State", [["", "not said: new"], ...stateOptions(view.context.rateBook.scarcity, view.context.locale)])}
          <Small {...small("days", "Days to arrive")} figure />
          <Small {...small("pack", "In a pack")} figure />
          <Small {...small("minPacks", "Fewest packs")} figure />
          <Small {...small("good", "Share good, %")} figure />
        </div>
      </fieldset>
      <div class="row">
        <TickSmall {...small("keep", "Keep these words for next time")} />
      </div>
      <fieldset class="more-part">
        <legend>The original part</legend>
        <div class="row">
          <Small {...small("originalType", "Part type")} list="types" />
          <Small {...small("originalValue", "Marking, such as 2u2")} />
          <Small {...small("originalVolts", "Rated volts")} figure />
          <Small {...small("workingVolts", "Working volts")} figure />
          <Small {...small("tolerance", "Tolerance, %")} figure />
          {pick("audio", "Audio grade", [
            ["", "not said"],
            ["yes", "yes"],
            ["no", "no"],
          ])}
        </div>
      </fieldset>
    </div>
  );
};

/** What the part's price draws after it; said anew with every figure typed. */
export function marginOf({ sheet, read, context }: IntakeView, row: string): string {
  const item = read.input.items.find(({ id }) => id === idOf(row));
  return (sheet && item && ownMarginText(sheet, item, context.rateBook.scarcity, context)) ?? "";
}

/** What is not drawn of the line, as far as a few words say it. */
export function filledIn({ fields, read, context }: IntakeView, row: string): string {
  const field = `line.${row}`;
  // As it is read, so that it says the same as typed and as saved.
  const { own, part, partPrice } = read.input.items.find(({ id }) => id === idOf(row)) ?? {};
  const cash = (leaf: string, amount = Number.NaN) => (Number.isNaN(amount) ? said(leaf) : money(amount, context));
  const said = (leaf: string) => fields.get(`${field}.${leaf}`)?.trim() ?? "";
  const times = TIMES.map(said).filter(Boolean);
  const told = [
    ...(times.length > 0 ? [`${[...new Set(times)].join(" / ")} min each`] : []),
    ...(said("price") ? [`price ${cash("price", own?.price)} each`] : []),
    ...(said("cost") ? [`part costs ${cash("cost", part && "own" in part ? part.own.cost : partPrice?.cost)}`] : []),
    ...(said("brought") ? ["the owner brings the part"] : []),
    ...(said("keep") ? ["kept for next time"] : []),
  ];
  const rest = ["labour", "ownHazards", ...PART, "group", ...ORIGINAL].filter((leaf) => said(leaf) !== "").length;
  return [...told, ...(rest > 0 ? [`${rest} more filled in`] : [])].join("; ");
}

/** One danger is chosen; several that a program said stay together. */
const dangers = (now = ""): Options => [
  ["", "none said"],
  ...HAZARDS.map((one) => [one, one] as const),
  ...(now.includes(";") ? [[now, listed(now.split(";"))] as const] : []),
];

type Options = readonly (readonly [value: string, name: string])[];
interface SmallProps {
  readonly view: IntakeView;
  readonly name: string;
  readonly label: string;
}

/** The visible label is short; the full one also says which line. */
const Full = ({ view, name, label }: SmallProps) => (
  <label for={name}>
    {label}
    <span class="unseen"> ({labelOf(name, view.read.draft, view.context)})</span>
  </label>
);

const Choose = ({ options, ...small }: SmallProps & { options: Options }) => (
  <div class="small">
    <Full {...small} />
    <select id={small.name} name={small.name} {...ties({ ...small.view, name: small.name })}>
      {options.map(([value, name]) => (
        <option value={value} selected={(small.view.fields.get(small.name) ?? "") === value}>
          {name}
        </option>
      ))}
    </select>
    <Wrong {...small.view} name={small.name} />
  </div>
);

const TickSmall = (small: SmallProps) => (
  <div class="small">
    <Full {...small} />
    <input
      type="checkbox"
      id={small.name}
      name={small.name}
      value="on"
      checked={Boolean(small.view.fields.get(small.name))}
      {...ties({ ...small.view, name: small.name })}
    />
    <Wrong {...small.view} name={small.name} />
  </div>
);
