/** Mean and variance of the total, exact, and what each source has to do with them (law of total variance over the condition factor). */
import { sumOf } from "./cumulants.js";
import type { Terms } from "./terms.js";

export interface TotalMoments {
  readonly mean: number;
  readonly variance: number;
  /** Covariance with the total of the planned labour, of what parts may come to, and of what may be found. Their sum is the variance. */
  readonly labour: number;
  readonly sourcing: number;
  readonly found: number;
  /** Expected labour under condition, what may be found included. */
  readonly labourMean: number;
}

export function totalMoments(terms: Terms): TotalMoments {
  const square = terms.cv * terms.cv;
  const lines = sumOf(terms.lines);
  const steady = sumOf(terms.steady);
  const draws = sumOf(terms.draws);
  const planned = terms.sure + lines.mean;
  let [foundLabour, foundOther, own] = [0, 0, 0];
  for (const { probability: p, labour, other } of terms.lumps) {
    foundLabour += p * labour.mean;
    foundOther += p * other.mean;
    own += lumpVariance(p, labour.mean, labour.variance, other.mean, other.variance, square);
  }
  for (const cluster of terms.clusters) {
    foundLabour += cluster.labour;
    foundOther += cluster.other;
    own += (1 + square) * cluster.variance.labour + 2 * cluster.variance.both + cluster.variance.other;
  }
  const labourMean = planned + foundLabour;
  // The condition factor ties every hour to every other: cv^2 x (all labour)^2, shared out by who does the hours.
  const labour = (1 + square) * lines.variance + steady.variance + square * planned * labourMean;
  const found = own + square * foundLabour * labourMean;
  return {
    mean: terms.fixed + labourMean + steady.mean + draws.mean + foundOther,
    variance: labour + draws.variance + found,
    labour,
    sourcing: draws.variance,
    found,
    labourMean,
  };
}

/** E[Var(B (C l + q) | C)]: p[(1 + cv^2)(vl + l^2) + 2lq + vq + q^2] - p^2[(1 + cv^2) l^2 + 2lq + q^2]. */
const lumpVariance = (p: number, l: number, vl: number, q: number, vq: number, square: number): number =>
  p * ((1 + square) * (vl + l * l) + 2 * l * q + vq + q * q) - p * p * ((1 + square) * l * l + 2 * l * q + q * q);
