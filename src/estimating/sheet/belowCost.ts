/** Parts that are sold for less than they cost: where prices include tax, a mark-up below the tax leaves less without it than was paid. */
import type { Minor } from "../input.js";
import type { Sheet } from "../sheet.js";
import { netAmounts } from "../totals/netAmounts.js";

export interface BelowCost {
  readonly name: string;
  /** As the owner pays for all pieces of it. */
  readonly price: Minor;
  readonly withoutTax: Minor;
  readonly cost: Minor;
}

/** Told beside a sheet and never in it: what it costs stands there already. */
export function belowCost(sheet: Pick<Sheet, "lines" | "adjustments" | "totals" | "parts">): readonly BelowCost[] {
  if (!sheet.totals.pricesIncludeTax) return [];
  const parts = netAmounts(sheet).lines.filter(({ line }) => line.sort === "part");
  const names = [...new Set(parts.map(({ line }) => line.part!.name))];
  return names.flatMap((name) => {
    const lines = parts.filter(({ line }) => line.part!.name === name);
    const price = lines.reduce((sum, { line }) => sum + line.amount, 0);
    const withoutTax = lines.reduce((sum, { net }) => sum + net, 0);
    const cost = sheet.parts.reduce((sum, each) => sum + (each.name === name && each.charged > 0 ? each.cost : 0), 0);
    return withoutTax < cost ? [{ name, price, withoutTax, cost }] : [];
  });
}
