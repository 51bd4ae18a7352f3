/** The least that is taken off so that a total is no longer too high; rounded tax can leave it a unit below. */
import type { Minor, TaxRules } from "../input.js";
import type { Totals } from "../sheet.js";
import { type AllowanceOrCharge, addUp, type Taxed } from "./addUp.js";
import { spreadOverCategories } from "./discount.js";

/**
 * By tax category. `passes`: whether totals are too high still; those without an allowance are, and those that are low enough are not.
 * From nothing nothing is taken off. Throws where no allowance is enough.
 */
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
  if (entries.length === 0) return { allowances: [], totals: totalsWith([]) };
  let [low, high] = [0, entries.reduce((sum, { amount }) => sum + amount, 0)];
  // Rounded tax, or a limit below nothing, can want more than there is. It doubles, so it ends.
  for (let more = 1; passes(totalsWith(less(high))); more *= 2) {
    [low, high] = [high, high + more];
    if (!Number.isSafeInteger(high)) throw new Error("No allowance keeps the total within its limit.");
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (passes(totalsWith(less(middle)))) low = middle;
    else high = middle;
  }
  const allowances = less(high);
  return { allowances, totals: totalsWith(allowances) };
}
