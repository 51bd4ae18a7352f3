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
  const paid = new Map<string, { readonly price: Minor; readonly withoutTax: Minor }>();
  for (const { line, net } of netAmounts(sheet).lines) {
    if (line.sort !== "part") continue;
    const { price, withoutTax } = paid.get(line.part!.name) ?? { price: 0, withoutTax: 0 };
    paid.set(line.part!.name, { price: price + line.amount, withoutTax: withoutTax + net });
  }
  const costs = new Map<string, Minor>();
  // What stands behind a service is charged by the service.
  for (const { name, charged, cost } of sheet.parts) if (charged > 0) costs.set(name, cost + (costs.get(name) ?? 0));
  return [...paid].flatMap(([name, told]) => {
    const cost = costs.get(name) ?? 0;
    return told.withoutTax < cost ? [{ name, ...told, cost }] : [];
  });
}
