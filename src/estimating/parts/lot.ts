/** Pieces of one part got in one way, and what they cost and are charged at. */
import type { Minor, Offer, PartsRules, PartType, Percent } from "../input.js";
import { timesOver } from "../money/rounding.js";
import { toScaledPercent, WHOLE } from "../money/scales.js";

export interface Lot {
  /** 'guess': counted by type only, or more than was offered. */
  readonly way: "stock" | "offer" | "guess";
  /** Offer bought from, or that the price is taken from; absent: the type's typical cost. */
  readonly offer?: Offer;
  readonly pieces: number;
  readonly charged: number;
  /** Price of `per` pieces. */
  readonly price: Minor;
  readonly per: number;
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
export const lotAtPriceOf = (offer: Offer | undefined, type: PartType, way: "stock" | "guess", pieces: number): Lot => ({
  way,
  ...(offer && { offer }),
  pieces,
  charged: pieces,
  price: offer?.price ?? type.typicalCost,
  per: offer?.packSize ?? 1,
});

const E4 = 10_000;

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
