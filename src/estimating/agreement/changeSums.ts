/** What changed rows add up to, then and now: with what did not change they come to what stands above the tax, and with the tax on top to the total. */
import type { Minor } from "../input.js";
import type { Sheet } from "../sheet.js";
import type { RowChange } from "./rowChanges.js";

export interface ThenAndNow {
  readonly before: Minor;
  readonly after: Minor;
  readonly difference: Minor;
}

export interface ChangeSums {
  /** Lines, allowances and charges that are no changed rows; the same then and now. */
  readonly unchanged: Minor;
  /** Includes tax where a sheet's prices do. */
  readonly aboveTax: ThenAndNow;
  /** 0 where a sheet's prices include it. */
  readonly taxOnTop: ThenAndNow;
  readonly total: ThenAndNow;
}

/** Minor units. `rows`: all those of the two sheets. */
export function changeSums(before: Sheet, after: Sheet, rows: readonly RowChange[]): ChangeSums {
  const changed = rows.reduce((sum, row) => sum + amountBefore(row), 0);
  const aboveTax = both(aboveTaxOf(before), aboveTaxOf(after));
  return {
    unchanged: aboveTax.before - changed,
    aboveTax,
    taxOnTop: both(onTop(before), onTop(after)),
    total: both(before.totals.total, after.totals.total),
  };
}

const both = (before: Minor, after: Minor): ThenAndNow => ({ before, after, difference: after - before });
const aboveTaxOf = ({ totals }: Sheet): Minor => totals.linesNet - totals.allowances + totals.charges;
const onTop = ({ totals }: Sheet): Minor => (totals.pricesIncludeTax ? 0 : totals.tax);

function amountBefore(row: RowChange): Minor {
  if (row.is === "line") return row.before?.amount ?? 0;
  if (row.is !== "adjustment" || !row.before) return 0;
  return row.before.charge ? row.before.amount : -row.before.amount;
}

export const CATEGORIES = ["access", "labour", "parts", "scarcity margin", "fees", "allowances and charges", "tax"] as const;
export type Category = (typeof CATEGORIES)[number];

export interface CategoryMoney {
  readonly category: Category;
  readonly before: Minor;
  readonly after: Minor;
}

/**
 * Where two sheets differ in money, by what it is paid for; the differences sum to that of the totals. Minor units, as the sheets' prices are; tax is its own category where it comes on top. Categories that
 * both lack are left out.
 */
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
