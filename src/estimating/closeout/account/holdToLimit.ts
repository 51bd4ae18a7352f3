/** Invariant: what is billed never passes the limit agreed, unless a record says who decided that it may. */
import { type Limit, over } from "../../agreement/limit.js";
import type { Minor, TaxRules } from "../../input.js";
import type { Totals } from "../../sheet.js";
import { type AllowanceOrCharge, addUp, type Taxed } from "../../totals/addUp.js";
import { spreadOverCategories } from "../../totals/discount.js";

export interface Held {
  /** How far the bill would have passed the limit, with tax or without as the limit is measured; 0: it does not. */
  readonly over: Minor;
  /** Taken off so that it does not, by tax category; empty when it need not be, or may not be. */
  readonly allowances: readonly AllowanceOrCharge[];
  readonly totals: Totals;
}

/** The least allowance that keeps the total within the limit; rounded tax can leave it a unit below. */
export function holdToLimit(
  lines: readonly Taxed[],
  adjustments: readonly AllowanceOrCharge[],
  tax: TaxRules,
  prepaid: Minor,
  limit: Limit,
  mayPass: boolean,
): Held {
  const entries = [
    ...lines,
    ...adjustments.map(({ charge, amount, taxCategory }) => ({ taxCategory, amount: charge ? amount : -amount })),
  ];
  const less = (amount: Minor): AllowanceOrCharge[] =>
    spreadOverCategories(amount, entries).map((part) => ({ ...part, charge: false }));
  const totalsWith = (allowances: readonly AllowanceOrCharge[]) => addUp(lines, [...adjustments, ...allowances], tax, prepaid);
  const totals = totalsWith([]);
  const by = over(limit, totals);
  if (mayPass || by === 0) return { over: by, allowances: [], totals };
  const passes = (amount: Minor) => over(limit, totalsWith(less(amount))) > 0;
  let [low, high] = [0, entries.reduce((sum, { amount }) => sum + amount, 0)];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (passes(middle)) low = middle;
    else high = middle;
  }
  while (passes(high)) high += 1;
  const allowances = less(high);
  return { over: by, allowances, totals: totalsWith(allowances) };
}
