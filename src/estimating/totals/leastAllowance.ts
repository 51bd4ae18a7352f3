/** The least that is taken off so that a total is no longer too high; rounded tax can leave it a unit below. */
import type { Minor, TaxRules } from "../input.js";
import type { Totals } from "../sheet.js";
import { type AllowanceOrCharge, addUp, type Taxed } from "./addUp.js";
import { spreadOverCategories } from "./discount.js";

/** By tax category. `passes`: whether totals are too high still; those without an allowance are. */
export function leastAllowance(
  lines: readonly Taxed[],
  adjustments: readonly AllowanceOrCharge[],
  tax: TaxRules,
  prepaid: Minor,
  passes: (totals: Totals) => boolean,
): { readonly allowances: readonly AllowanceOrCharge[]; readonly totals: Totals } {
  const entries = [
    ...lines,
    ...adjustments.map(({ charge, amount, taxCategory }) => ({ taxCategory, amount: charge ? amount : -amount })),
  ];
  const less = (amount: Minor): AllowanceOrCharge[] =>
    spreadOverCategories(amount, entries).map((part) => ({ ...part, charge: false }));
  const totalsWith = (allowances: readonly AllowanceOrCharge[]) => addUp(lines, [...adjustments, ...allowances], tax, prepaid);
  let [low, high] = [0, entries.reduce((sum, { amount }) => sum + amount, 0)];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (passes(totalsWith(less(middle)))) low = middle;
    else high = middle;
  }
  while (passes(totalsWith(less(high)))) high += 1;
  const allowances = less(high);
  return { allowances, totals: totalsWith(allowances) };
}
