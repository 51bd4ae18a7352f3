/**
 * Parts and freight that are sold for less than they are expected to cost: where prices include tax, less is left without it than was paid.
 * Freight is charged at cost, and what a buy plan is expected to spend beyond the catalogue; the rate book's percentage is an allowance for
 * risk, which is part of the price alone.
 */
import type { Minor } from "../input.js";
import type { Sheet } from "../sheet.js";
import { netAmounts } from "../totals/netAmounts.js";

export interface BelowCost {
  /** Of the part; of the source where it is freight. */
  readonly name: string;
  readonly freight?: true;
  /** As the owner pays for all pieces of it. */
  readonly price: Minor;
  readonly withoutTax: Minor;
  readonly cost: Minor;
}

/** Told beside a sheet and never in it: what it costs stands there already. */
export function belowCost(sheet: Pick<Sheet, "lines" | "adjustments" | "totals" | "parts">): readonly BelowCost[] {
  if (!sheet.totals.pricesIncludeTax) return [];
  const paid = new Map<string, { readonly price: Minor; readonly withoutTax: Minor }>();
  const costs = new Map<string, Minor>();
  const add = (name: string, cost: Minor) => costs.set(name, cost + (costs.get(name) ?? 0));
  const { lines, adjustments } = netAmounts(sheet);
  for (const { line, net } of lines) {
    if (line.sort !== "part" && line.sort !== "scarcity margin") continue;
    if (line.why?.rule === "buy plan") add(line.part!.name, line.amount);
    const { price, withoutTax } = paid.get(line.part!.name) ?? { price: 0, withoutTax: 0 };
    paid.set(line.part!.name, { price: price + line.amount, withoutTax: withoutTax + net });
  }
  // What stands behind a service is charged by the service.
  for (const { name, charged, cost } of sheet.parts) if (charged > 0) add(name, cost);
  return [
    ...[...paid].flatMap(([name, told]) => {
      const cost = costs.get(name) ?? 0;
      return told.withoutTax < cost ? [{ name, ...told, cost }] : [];
    }),
    ...adjustments.flatMap(({ adjustment: { sort, amount, reason = "" }, net }) =>
      sort === "freight" && net < amount
        ? [{ name: reason, freight: true as const, price: amount, withoutTax: net, cost: amount }]
        : [],
    ),
  ];
}
