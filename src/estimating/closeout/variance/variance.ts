/** The two halves of a labour or parts variance, in whole minor units; they sum to actual less allowed. */
import type { Minor } from "../../input.js";
import { divide } from "../../money/rounding.js";
import { priceMilli } from "../../money/scales.js";

interface AllowedTime {
  readonly amount: Minor;
  /** Minor units per hour. */
  readonly rate: Minor;
}

interface ActualTime {
  readonly amount: Minor;
  /** Thousandths of a minute. */
  readonly milli: number;
}

/** rate = (AR - SR) AH, efficiency = (AH - SH) SR: the efficiency is valued at the standard rate, never at the actual one. */
export function labourVariance(allowed: AllowedTime, actual: ActualTime): { readonly rate: Minor; readonly efficiency: Minor } {
  const flexed = priceMilli(actual.milli, allowed.rate);
  return { rate: actual.amount - flexed, efficiency: flexed - allowed.amount };
}

export interface AllowedPieces {
  readonly amount: Minor;
  readonly pieces: number;
  /** Ten-thousandths of a minor unit for all pieces together, before the rounding of `amount`. */
  readonly worthE4: bigint;
}

interface ActualPieces {
  readonly amount: Minor;
  readonly pieces: number;
}

/** price = (AP - SP) AQ, usage = (AQ - SQ) SP. Where no piece was allowed there is no standard price, and all of it is usage. */
export function partsVariance(
  allowed: AllowedPieces,
  actual: ActualPieces,
): { readonly price: Minor; readonly usage: Minor; readonly flexed: Minor } {
  const flexed =
    actual.pieces === allowed.pieces
      ? allowed.amount
      : allowed.pieces === 0
        ? actual.amount
        : divide(BigInt(actual.pieces) * allowed.worthE4, BigInt(allowed.pieces) * 10_000n);
  return { price: actual.amount - flexed, usage: flexed - allowed.amount, flexed };
}
