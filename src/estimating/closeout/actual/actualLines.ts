/** What a job comes to by the time and parts really used: the lines, allowances and charges of a sheet, by the rate book's own rules. */
import { readBook } from "../../book.js";
import { billed, minimumLine } from "../../labour/billing.js";
import { type LabourLine, NO_TIME } from "../../labour/times.js";
import { fromMilli, priceMilli } from "../../money/scales.js";
import { withUniqueIds } from "../../parts/partLines.js";
import { behindOf } from "../../resolve.js";
import type { Adjustment, Line } from "../../sheet.js";
import { rush, sundries } from "../../totals/charges.js";
import { discountOn } from "../../totals/discount.js";
import type { ChargedRevision } from "../jobDone.js";
import type { PartsDone } from "./partsDone.js";
import type { Portion, WorkDone } from "./workDone.js";

export interface ActualLines {
  /** Labour at the rate of the class worked at, what was sold at a fixed price as it was allowed, steps and least charge, parts as used, the allowed sheet's fees. No allowance for risk. */
  readonly lines: readonly Line[];
  readonly adjustments: readonly Adjustment[];
}

/** Only what is agreed. Time is not graded: it is what it took. */
export function actualLines(
  work: readonly WorkDone[],
  parts: readonly PartsDone[],
  { input, sheet }: ChargedRevision,
): ActualLines {
  const { rateBook, policy = {} } = input;
  const behind = new Set((sheet.behind ?? []).map(({ id }) => id));
  const within = new Set(input.items.flatMap((item) => (behindOf(item) === undefined ? [] : [item.id])));
  const flat = sheet.lines.filter(({ why }) => why?.rule === "fixed price");
  const sold = new Set(flat.map(({ id }) => id));
  const byTime = work.filter(({ agreed, line: { id } }) => agreed && !sold.has(id) && !behind.has(id));
  const labour = byTime.flatMap(labourLines);
  const unique = withUniqueIds(labour.map(({ line }) => line));
  const timed = labour.map((each, at) => ({ ...each, line: unique[at]! }));
  const charged = billed([...timed, ...flat.map(atItsPrice)], rateBook, readBook(input));
  const lines = [
    ...charged,
    ...minimumLine(charged, rateBook),
    ...withUniqueIds(
      parts.filter(({ agreed, used }) => agreed && !used.every(({ item }) => within.has(item))).map(({ line }) => line),
    ),
    ...sheet.lines.filter(({ sort }) => sort === "fee"),
  ];
  return {
    lines,
    adjustments: [
      ...discountOn(lines, policy.discount, rateBook).adjustments,
      ...sundries(lines, rateBook),
      ...sheet.adjustments.filter(({ sort }) => sort === "freight"),
      ...(policy.rush ? rush(lines, rateBook) : []),
    ],
  };
}

/** One for each class worked at, rounded once. */
export function labourLines({ line, portions }: WorkDone) {
  const byClass = new Map<string, Portion>();
  for (const portion of portions) {
    const before = byClass.get(portion.labourClass.id);
    byClass.set(portion.labourClass.id, { ...portion, milli: portion.milli + (before?.milli ?? 0) });
  }
  return [...byClass.values()].map(({ labourClass: { id, name, attended, ratePerHour }, milli }) => ({
    times: { low: milli, likely: milli, high: milli },
    attended,
    labourClass: id,
    line: {
      ...untimed(line),
      labourClass: { id, name },
      minutes: fromMilli(milli),
      amount: priceMilli(milli, ratePerHour),
    },
  }));
}

const atItsPrice = (line: Line): LabourLine => ({
  ...{ line, times: NO_TIME, attended: true, labourClass: line.labourClass?.id ?? "", flat: true },
});

/** What it took is one figure. */
const untimed = ({ times: _, ...line }: Line): Line => line;
