/**
 * What is promised is what happens. Each option and each piece of possible work has its price; where several are taken or turn up,
 * the lower of the sum of these and the price of the set is charged, and what the set would come to beyond is taken off.
 */
import type { Minor, RateBook, TaxRules } from "../input.js";
import type { Adjustment, GroupPrice, Line, Sheet } from "../sheet.js";
import { type AllowanceOrCharge, addUp } from "../totals/addUp.js";
import { leastAllowance } from "../totals/leastAllowance.js";

/** Books from before prices were kept are priced as they were. */
export const keepsPromises = ({ billing }: Pick<RateBook, "billing">): boolean => billing.minutes === "expected";

/** Tax included: a total, and the prices of groups on top of it, by their ids. */
export const withPromised = (total: Minor, groups: readonly GroupPrice[], ids: Iterable<string>): Minor => {
  const wanted = new Set(ids);
  return groups.reduce((sum, { id, price }) => sum + (wanted.has(id) ? price : 0), total);
};

/** The sheet with its total at most so much. */
export function heldTo<S extends Pick<Sheet, "lines" | "adjustments" | "totals">>(
  sheet: S,
  most: Minor,
  { tax }: Pick<RateBook, "tax">,
): S {
  const { lines, adjustments, totals } = sheet;
  if (totals.total <= most) return sheet;
  const held = [...adjustments, ...takenOff(lines, adjustments, tax, most)];
  return { ...sheet, adjustments: held, totals: addUp(lines, held, tax, totals.prepaid) };
}

/** For a total that is more than so much. */
export function takenOff(
  lines: readonly Line[],
  adjustments: readonly AllowanceOrCharge[],
  tax: TaxRules,
  most: Minor,
): Adjustment[] {
  const { allowances } = leastAllowance(lines, adjustments, tax, 0, ({ total }) => total > most);
  return allowances.map(
    ({ amount, taxCategory }): Adjustment => ({
      id: allowances.length === 1 ? "promised" : `promised:${taxCategory}`,
      sort: "promised price",
      charge: false,
      amount,
      taxCategory,
      taxClass: lines.find((line) => line.taxCategory === taxCategory)?.taxClass ?? "labour",
      from: [{ is: "rule", rule: "promised price" }],
    }),
  );
}
