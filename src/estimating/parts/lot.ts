/** Pieces of one part got in one way: what they cost and are charged at, where they are bought, and what their freight adds. */
import type { Minor, PartPrice, PartsRules, PartType, Percent } from "../input.js";
import type { LandedOffer } from "../money/landed.js";
import { timesOver } from "../money/rounding.js";
import { toScaledPercent, WHOLE } from "../money/scales.js";
import type { Adjustment } from "../sheet.js";
import { capacity, wholePacks } from "./catalogue.js";

export interface Lot {
  /** 'guess': counted by type only, or more than was offered. */
  readonly way: "stock" | "offer" | "guess";
  /** Offer bought from, or that the price is taken from; absent: the type's typical cost. */
  readonly offer?: LandedOffer;
  readonly pieces: number;
  readonly charged: number;
  /** Price of `per` pieces. */
  readonly price: Minor;
  readonly per: number;
  /** By the owner. */
  readonly brought?: true;
  /** What it would cost, where the shop said another price for one line. */
  readonly instead?: { readonly price: Minor; readonly per: number; readonly own: PartPrice };
}

export interface PricedLot {
  readonly lot: Lot;
  /** Before mark-up. */
  readonly cost: Minor;
  readonly markUpPercent: Percent;
  /** Index of the mark-up band; -1: none reaches this high. */
  readonly band: number;
  /** Ten-thousandths of a minor unit. */
  readonly unitPriceE4: number;
  readonly amount: Minor;
}

/** Pieces not bought from an offer, at the price of one of it, or at the type's typical cost. */
export const lotAtPriceOf = (offer: LandedOffer | undefined, type: PartType, way: "stock" | "guess", pieces: number): Lot => ({
  way,
  ...(offer && { offer }),
  pieces,
  charged: pieces,
  price: offer?.price ?? type.typicalCost,
  per: offer?.packSize ?? 1,
});

export const E4 = 10_000;

/** EN 16931: a unit price may have more decimals than the currency (here four); the line's net amount is rounded to it. */
export function priceLot(lot: Lot, { markUp }: PartsRules): PricedLot {
  const band = markUp.findIndex(({ upTo }) => upTo === undefined || lot.price <= upTo * lot.per);
  const markUpPercent = markUp[band]?.percent ?? 0;
  const unitPriceE4 = timesOver(lot.price, WHOLE + toScaledPercent(markUpPercent), (WHOLE / E4) * lot.per);
  return {
    lot,
    cost: timesOver(lot.charged, lot.price, lot.per),
    markUpPercent,
    band,
    unitPriceE4,
    amount: timesOver(lot.charged, unitPriceE4, E4),
  };
}

/**
 * Where to buy so many pieces: the cheapest of every offer that can supply them all and of the offers mixed, cheapest piece first.
 * As each way costs more for more pieces, one more piece never lowers the price.
 * `offers` with the cheapest piece first; `charge` is what the owner would pay for the lots, freight included.
 * Pieces that nobody offers are left out. Of equal charges the fewest lots win, then the quickest, then the cheapest piece.
 */
export function chooseLots(
  pieces: number,
  offers: readonly LandedOffer[],
  whole: boolean,
  charge: (lots: readonly Lot[]) => Minor,
): readonly Lot[] {
  const lot = (offer: LandedOffer, taken: number): Lot => ({
    way: "offer",
    offer,
    pieces: taken,
    charged: whole ? wholePacks(offer, taken) : taken,
    price: offer.price,
    per: offer.packSize,
  });
  const mixed: Lot[] = [];
  let left = pieces;
  for (const offer of offers) {
    const taken = Math.min(left, capacity(offer));
    if (taken > 0) mixed.push(lot(offer, taken));
    left -= taken;
  }
  const alone = offers.filter((offer) => capacity(offer) >= pieces).map((offer) => [lot(offer, pieces)]);
  const slowest = (lots: readonly Lot[]) => Math.max(...lots.map(({ offer }) => offer?.leadDays ?? 0));
  // A mix of one offer is among those alone.
  const [best] = [...alone, ...(mixed.length === 1 && alone.length > 0 ? [] : [mixed])]
    .map((lots) => ({ lots, charge: charge(lots) }))
    .sort((a, b) => a.charge - b.charge || a.lots.length - b.lots.length || slowest(a.lots) - slowest(b.lots));
  return best?.lots ?? [];
}

/** What each source has been paid so far: once per estimate, the highest that the offers used from it ask. */
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
          ...(offer.steps?.freight ?? []),
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
