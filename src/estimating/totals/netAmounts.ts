/**
 * Each line and adjustment net of tax, so that per tax category they sum exactly to the printed base. Where prices include tax, the group's tax
 * is taken out of the running sum: what an entry bears is the difference of two roundings, so nothing is left over.
 */
import type { Minor } from "../input.js";
import { timesOver } from "../money/rounding.js";
import type { Adjustment, Line, Sheet } from "../sheet.js";

export interface NetAmounts {
  readonly lines: readonly { readonly line: Line; readonly net: Minor }[];
  /** Signed as printed: a charge is positive. */
  readonly adjustments: readonly { readonly adjustment: Adjustment; readonly net: Minor }[];
}

export function netAmounts(sheet: Sheet): NetAmounts {
  const groups = new Map(
    sheet.totals.taxGroups.map((group) => [group.category, { gross: group.base + group.tax, tax: group.tax, run: 0, taken: 0 }]),
  );
  const net = (category: string, amount: Minor): Minor => {
    const group = groups.get(category);
    if (!sheet.totals.pricesIncludeTax || !group || group.gross === 0) return amount;
    group.run += amount;
    const taken = timesOver(group.run, group.tax * Math.sign(group.gross), Math.abs(group.gross));
    const share = taken - group.taken;
    group.taken = taken;
    return amount - share;
  };
  return {
    lines: sheet.lines.map((line) => ({ line, net: net(line.taxCategory, line.amount) })),
    adjustments: sheet.adjustments.map((adjustment) => {
      const signed = net(adjustment.taxCategory, adjustment.charge ? adjustment.amount : -adjustment.amount);
      return { adjustment, net: adjustment.charge ? signed : -signed };
    }),
  };
}
