/** Buying one at a time until k are good, each good with chance p: how many that takes. */
import { incompleteBeta } from "./incompleteBeta.js";

/** P(at most `failures` bad ones before the k-th good one) = I_p(k, failures + 1). Equals binomialAtLeast(k, k + failures, p). */
export function failuresAtMost(failures: number, k: number, p: number): number {
  if (k <= 0) return 1;
  if (failures < 0 || p <= 0) return 0;
  return incompleteBeta(p, k, failures + 1);
}

/** Pieces bought: mean k / p, variance k (1 - p) / p^2. */
export const drawsMean = (k: number, p: number): number => k / p;
export const drawsVariance = (k: number, p: number): number => (k * (1 - p)) / (p * p);
