/** Prices a set of items: access, labour, parts, fees, then allowances and charges, then totals. Everything else builds on this. */
import type { EstimateInput, Policy, RateBook } from "../input.js";
import { boardsLine } from "../labour/access.js";
import { billed, minimumLine } from "../labour/billing.js";
import { labourLine, setupsOf } from "../labour/labourLine.js";
import type { ReadItem } from "../labour/readItem.js";
import { inMinutes, type LabourLine, type Times } from "../labour/times.js";
import { fromMilli, toMilli } from "../money/scales.js";
import { pullLine } from "../parts/partLines.js";
import type { PartsPrice } from "../parts/priceParts.js";
import { needsOf } from "../parts/supply.js";
import type { Line, TimeResult } from "../sheet.js";
import { closure, type MapReading } from "../teardown/map.js";
import { addUp } from "../totals/addUp.js";
import { feeLines, rush, sundries } from "../totals/charges.js";
import { discountOn } from "../totals/discount.js";
import type { Priced, Visit, Workings } from "./workings.js";

/** `onlySums`: nobody reads its lines; steps may stand beside them. */
export function price(workings: Workings, items: readonly ReadItem[], visit: Visit, onlySums = false): Priced {
  const { map, rateBook, book } = workings;
  const { policy, boards } = visit;
  const worked = new Set(visit.toOpen);
  for (const { place } of items) if (place !== undefined) worked.add(place);
  const off = closure(map, worked);
  const opened = workings.removal.filter((place) => off.has(place) && !visit.open.has(place));
  const access = [
    ...opened.map((place) => workings.openings[place]!.line),
    ...boards.map((row, at) => boardsLine(row, at, workings)).filter(({ line }) => line.count! > 0),
  ];

  const counted = boards.reduce((sum, { count }) => sum + count, 0) + visit.toOpen.length;
  const setups = setupsOf(items, counted, rateBook);
  const needs = needsOf(items);
  const parts = workings.parts(needs);
  const labour = [
    ...items.map((read) => labourLine(read, setups.get(read) ?? 0, workings)),
    ...parts.pulls.map((pull) => pullLine(pull, rateBook, book)),
  ];
  const timed = [...access, ...labour];
  // Tax that is rounded line by line depends on the lines.
  const charged = billed(timed, rateBook, book, onlySums && rateBook.tax.rounding.level !== "line");
  const lines = [...charged, ...minimumLine(charged, rateBook), ...parts.lines, ...feeLines(policy, rateBook)];
  return { visit, items, worked, off, opened, access, labour, needs, parts, ...settled(lines, parts, policy, rateBook) };
}

/** The same and the items of a group that it does not hold. */
export function priceWith(base: Priced, items: readonly ReadItem[], workings: Workings): Priced {
  const grown = workings.grown.get(base) ?? new Map<ReadItem, Priced>();
  workings.grown.set(base, grown);
  const more = grown.get(items[0]!) ?? price(workings, [...base.items, ...items], base.visit, true);
  grown.set(items[0]!, more);
  return more;
}

type Settled = Pick<Priced, "lines" | "adjustments" | "discount" | "totals">;

/** Allowances, charges and totals over lines. */
function settled(lines: readonly Line[], { freight }: PartsPrice, policy: Policy, rateBook: RateBook): Settled {
  const { adjustments: discounts, ...discount } = discountOn(lines, policy.discount, rateBook);
  const adjustments = [...discounts, ...sundries(lines, rateBook), ...freight, ...(policy.rush ? rush(lines, rateBook) : [])];
  const totals = addUp(lines, adjustments, rateBook.tax, policy.prepaid ?? 0);
  return { lines, adjustments, discount, totals };
}

/** The same without some of its lines, as if they had never been charged. */
export function withoutLines(priced: Priced, unwanted: (line: Line) => boolean, { rateBook }: Workings): Priced {
  const lines = priced.lines.filter((line) => !unwanted(line));
  if (lines.length === priced.lines.length) return priced;
  return { ...priced, ...settled(lines, priced.parts, priced.visit.policy, rateBook) };
}

/** The same with margins of scarce parts, after the lines of parts. */
export function withMargins(priced: Priced, margins: readonly Line[], { rateBook }: Workings): Priced {
  if (margins.length === 0) return priced;
  const at = priced.lines.findLastIndex(({ sort }) => sort === "part" || sort === "scarcity margin") + 1;
  const lines = [...priced.lines.slice(0, at), ...margins, ...priced.lines.slice(at)];
  return { ...priced, ...settled(lines, priced.parts, priced.visit.policy, rateBook) };
}

/** The same with lines that no discount, sundries or rush are reckoned on. */
export function withLines(priced: Priced, more: readonly Line[], { rateBook }: Workings): Priced {
  if (more.length === 0) return priced;
  const lines = [...priced.lines, ...more];
  return { ...priced, lines, totals: addUp(lines, priced.adjustments, rateBook.tax, priced.totals.prepaid) };
}

/** Labour of each item, by assembly in map order, that on the unit as a whole last. */
export const byAssembly = ({ items, labour }: Pick<Priced, "items" | "labour">): LabourLine[] =>
  items
    .map(({ place = Number.POSITIVE_INFINITY }, at) => ({ place, ...labour[at]! }))
    .sort((a, b) => (a.place === b.place ? 0 : a.place - b.place));

/** What stands behind services: their work, then what is pulled for it. */
export const linesBehind = (priced: Pick<Priced, "items" | "labour">): Line[] =>
  [...byAssembly(priced), ...priced.labour.slice(priced.items.length)].flatMap(({ behind, line }) =>
    behind === undefined ? [] : [line],
  );

const isFlat = (why: Line["why"]): boolean => why?.rule === "fixed price";

export function visitNow(input: EstimateInput, map: MapReading): Visit {
  const { boards = [], toOpen = [], alreadyOpen = [], openAtNoCharge = [], policy = {} } = input;
  const places = (ids: readonly string[]) => [...new Set(ids)].map((id) => map.at.get(id)!);
  const open = new Set([...closure(map, places(alreadyOpen)), ...places(openAtNoCharge)]);
  return { boards, toOpen: places(toOpen), open, policy };
}

/** At the bench and beside it, before billing steps, in thousandths of a minute. */
export function milliTaken({ access, labour }: Priced): { readonly attended: Times; readonly unattended: number } {
  let [low, likely, high, unattended] = [0, 0, 0, 0];
  // Asked for every price there is: one walk, nothing made on the way.
  for (const lines of [access, labour])
    for (const { attended, times } of lines)
      if (attended) {
        low += times.low;
        likely += times.likely;
        high += times.high;
      } else unattended += times.likely;
  return { attended: { low, likely, high }, unattended };
}

/** The same as one figure: expected where that is charged, else likely. */
export function milliReckoned(priced: Priced, { billing }: RateBook): number {
  const { attended, unattended } = milliTaken(priced);
  if (billing.minutes !== "expected") return attended.likely + unattended;
  return [...priced.access, ...priced.labour].reduce((sum, { line }) => sum + toMilli(line.minutes ?? 0), 0);
}

function chargedTime({ access, labour, lines }: Priced): NonNullable<TimeResult["charged"]> {
  const charged = new Map(lines.map((line) => [line.id, line]));
  const sum = (all: readonly LabourLine[]) =>
    fromMilli(all.reduce((total, { line }) => total + toMilli((charged.get(line.id) ?? line).minutes ?? 0), 0));
  const all = [...access, ...labour];
  return {
    attended: sum(all.filter(({ attended }) => attended)),
    unattended: sum(all.filter(({ attended }) => !attended)),
    access: sum(access),
  };
}

/** In minutes; `billed` is the sum of the minutes on the lines that are charged by time. */
export function timeTaken(priced: Priced, { billing }: RateBook): TimeResult {
  const { attended, unattended } = milliTaken(priced);
  const billed = priced.lines.reduce((sum, { minutes = 0, why }) => sum + (isFlat(why) ? 0 : toMilli(minutes)), 0);
  return {
    attended: fromMilli(attended.likely),
    unattended: fromMilli(unattended),
    billed: fromMilli(billed),
    spread: inMinutes(attended),
    ...(billing.minutes === "expected" && { charged: chargedTime(priced) }),
  };
}
