/** A row of a close-out: its figures, its category, and how rows add up. */
import type { Minor, Minutes } from "../../input.js";
import type { Adjustment, Line, LineSort } from "../../sheet.js";

interface Quantity<Unit> {
  readonly quoted: Unit;
  readonly agreed: Unit;
  readonly allowed: Unit;
  readonly actual: Unit;
}

/** The finest part of a close-out: one line of the sheets; of a part, each work item's share of it. */
export interface Row extends Figures {
  readonly id: string;
  readonly category: CloseOutCategory;
  /** What it is, as the last sheet that has it prints it; its money and minutes are that sheet's. */
  readonly is: { readonly line: Line } | { readonly adjustment: Adjustment };
  /** Work item it belongs to. */
  readonly item?: string;
  /** Absent: the unit as a whole. */
  readonly assembly?: { readonly id: string; readonly name: string };
  readonly minutes?: Quantity<Minutes>;
  readonly pieces?: Quantity<number>;
  /** false: allowed for, but no time was logged on it, so its favourable variance may only mean that. */
  readonly logged?: boolean;
  /** Nobody timed it, so its actual is what was allowed. */
  readonly untimed?: "done" | "as planned";
}

/** What the money of a job is for. Every row of a close-out is in one category, and the categories sum to the total. */
export const CLOSE_OUT_CATEGORIES = [
  "access",
  "labour",
  "billing steps",
  "parts",
  "risk",
  "fees",
  "allowances and charges",
  "not agreed",
] as const;
export type CloseOutCategory = (typeof CLOSE_OUT_CATEGORIES)[number];

/** 'billing steps': what the shop's step and least charge add to labour. 'risk': charged for what might turn out dearer. */
export const CATEGORY_OF: Readonly<Record<LineSort, CloseOutCategory>> = {
  access: "access",
  replacement: "labour",
  cleaning: "labour",
  alignment: "labour",
  inspection: "labour",
  "fault finding": "labour",
  test: "labour",
  soak: "labour",
  other: "labour",
  "donor pull": "labour",
  "labour rounding": "billing steps",
  "minimum charge": "billing steps",
  part: "parts",
  "scarcity margin": "risk",
  allowance: "risk",
  fee: "fees",
};

/**
 * Labour: rate = (actual rate - allowed rate) x actual time; efficiency = (actual time - allowed time) x allowed rate. Parts: price =
 * (actual price - allowed price) x pieces used; usage = (pieces used - pieces allowed) x allowed price. Standard-cost variances, as in
 * OpenStax, Principles of Accounting 2, chapter 8 (key terms). 'risk': allowances that the actual figures take the place of; 'terms':
 * steps, least charge, allowances and charges that follow from the rest; 'not agreed': logged on an override.
 */
export const VARIANCES = ["rate", "efficiency", "price", "usage", "risk", "terms", "not agreed"] as const;
export type VarianceKind = (typeof VARIANCES)[number];

/** Quoted, agreed, allowed and actual, and why the last two differ. All in minor units, at the rate book's prices, before tax that comes on top. */
export interface Figures {
  /** By the first revision. */
  readonly quoted: Minor;
  /** By the revision agreed to last. */
  readonly agreed: Minor;
  /** The agreed work as it was found and done, at agreed prices: what the actual is held against. */
  readonly allowed: Minor;
  /** What was really used, at the rate book's prices. */
  readonly actual: Minor;
  /** Positive: more than allowed. Their sum is actual less allowed. */
  readonly variance: Readonly<Record<VarianceKind, Minor>>;
}

const NO_VARIANCE = Object.fromEntries(VARIANCES.map((kind) => [kind, 0])) as Record<VarianceKind, Minor>;

/** The variance follows: what the kinds given leave over is of kind `rest`. */
export function figures(
  amounts: Omit<Figures, "variance">,
  rest: VarianceKind,
  split: Partial<Record<VarianceKind, Minor>> = {},
): Figures {
  const given = Object.values(split).reduce((sum, amount) => sum + amount, 0);
  return { ...amounts, variance: { ...NO_VARIANCE, ...split, [rest]: amounts.actual - amounts.allowed - given } };
}

export function sumOfFigures(rows: readonly Figures[]): Figures {
  const variance = { ...NO_VARIANCE };
  let [quoted, agreed, allowed, actual] = [0, 0, 0, 0];
  for (const row of rows) {
    quoted += row.quoted;
    agreed += row.agreed;
    allowed += row.allowed;
    actual += row.actual;
    for (const kind of VARIANCES) variance[kind] += row.variance[kind];
  }
  return { quoted, agreed, allowed, actual, variance };
}

/** As much as is allowed, with `rest`: what its variances are, this has the other way round. */
export function asAllowed({ allowed }: Figures, rest: Figures): Pick<Figures, "actual" | "variance"> {
  const variance = Object.fromEntries(VARIANCES.map((kind) => [kind, -rest.variance[kind] || 0])) as Figures["variance"];
  return { actual: allowed - (rest.actual - rest.allowed), variance };
}
