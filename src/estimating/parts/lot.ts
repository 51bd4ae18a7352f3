/** Pieces of one part got in one way, and what they cost and are charged at. */
import type { Minor, Offer, PartsRules, Percent } from "../input.js";
import { divide, timesOver } from "../money/rounding.js";
import { toScaledPercent, WHOLE } from "../money/scales.js";

export interface Lot {
  /** 'short': more than was offered, so priced at a guess; 'typical': counted by type only. */
  readonly way: "stock" | "offer" | "short" | "typical";
  /** Offer bought from, or that the price is taken from; absent: the type's typical cost. */
  readonly offer?: Offer;
  readonly pieces: number;
  readonly charged: number;
  /** Price of `per` pieces. */
  readonly price: Minor;
  readonly per: number;
}

export interface LotPrice {
  /** Before mark-up. */
  readonly cost: Minor;
  readonly markUpPercent: Percent;
  /** Index of the mark-up band; -1: none reaches this high. */
  readonly band: number;
  /** Ten-thousandths of a minor unit. */
  readonly unitPriceE4: number;
  readonly amount: Minor;
}

/** EN 16931: the unit price may have more decimals than the currency (here four), the line's net amount is rounded to it. */
export function priceLot(lot: Lot, rules: PartsRules): LotPrice {
  const band = rules.markUp.findIndex(({ upTo }) => upTo === undefined || lot.price <= upTo * lot.per);
  const markUpPercent = rules.markUp[band]?.percent ?? 0;
  const unitPriceE4 = divide(
    BigInt(lot.price) * 10_000n * BigInt(WHOLE + toScaledPercent(markUpPercent)),
    BigInt(lot.per) * BigInt(WHOLE),
  );
  return {
    cost: timesOver(lot.charged, lot.price, lot.per),
    markUpPercent,
    band,
    unitPriceE4,
    amount: timesOver(lot.charged, unitPriceE4, 10_000),
  };
}
