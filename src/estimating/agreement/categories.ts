/** Where two sheets differ in money, by what it is paid for. The differences sum to that of the totals. */
import type { Minor } from "../input.js";
import type { Sheet } from "../sheet.js";

export const CATEGORIES = ["access", "labour", "parts", "scarcity margin", "fees", "allowances and charges", "tax"] as const;
export type Category = (typeof CATEGORIES)[number];

export interface CategoryMoney {
  readonly category: Category;
  readonly before: Minor;
  readonly after: Minor;
}

/** Minor units, as the sheets' prices are; tax is its own category where it comes on top. Categories that both lack are left out. */
export function moneyByCategory(before: Sheet, after: Sheet): CategoryMoney[] {
  const [was, is] = [amountsOf(before), amountsOf(after)];
  return CATEGORIES.map((category) => ({ category, before: was[category], after: is[category] })).filter(
    (money) => money.before !== 0 || money.after !== 0,
  );
}

function amountsOf({ lines, totals }: Sheet): Record<Category, Minor> {
  const amounts: Record<Category, Minor> = {
    access: 0,
    labour: 0,
    parts: 0,
    "scarcity margin": 0,
    fees: 0,
    "allowances and charges": totals.charges - totals.allowances,
    tax: totals.pricesIncludeTax ? 0 : totals.tax,
  };
  for (const { sort, taxClass, amount } of lines)
    amounts[
      sort === "access" || sort === "scarcity margin"
        ? sort
        : sort === "fee"
          ? "fees"
          : taxClass === "labour"
            ? "labour"
            : "parts"
    ] += amount;
  return amounts;
}
