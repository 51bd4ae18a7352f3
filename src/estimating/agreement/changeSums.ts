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
