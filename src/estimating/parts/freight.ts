/** Freight is paid once per source and estimate: the highest that the offers used from it ask. */
import type { Minor } from "../input.js";
import type { Adjustment } from "../sheet.js";
import type { Lot } from "./lot.js";

/** What each source has been paid so far. */
export type FreightPaid = Map<string, { amount: Minor; from: Adjustment["from"] }>;

/** What lots add to the freight that is paid already. */
export function extraFreight(lots: readonly Lot[], paid: FreightPaid): Minor {
  const highest = new Map<string, Minor>();
  for (const { way, offer } of lots)
    if (way === "offer" && offer) highest.set(offer.source, Math.max(highest.get(offer.source) ?? 0, offer.freight ?? 0));
  return [...highest].reduce((sum, [source, amount]) => sum + Math.max(0, amount - (paid.get(source)?.amount ?? 0)), 0);
}

export function payFreight(lots: readonly Lot[], paid: FreightPaid): void {
  for (const { way, offer } of lots)
    if (way === "offer" && offer && (offer.freight ?? 0) > (paid.get(offer.source)?.amount ?? 0))
      paid.set(offer.source, {
        amount: offer.freight ?? 0,
        from: [
          { is: "offer", id: offer.id, source: offer.source, on: offer.on },
          { is: "rule", rule: "freight once per source" },
        ],
      });
}

export const freightCharges = (paid: FreightPaid, taxCategory: string): Adjustment[] =>
  [...paid].map(([source, { amount, from }]) => ({
    id: `freight:${source}`,
    sort: "freight",
    charge: true,
    amount,
    taxCategory,
    taxClass: "freight",
    reason: source,
    from,
  }));
