/** Cumulants of the terms that go together, for any condition factor c. */
import type { Group } from "./crowd.js";
import { type Lump, type Moments, sumOf } from "./terms.js";

/** Money under condition, at factor c. */
export const times = ({ mean, variance, third }: Moments, c: number): Moments => ({
  mean: c * mean,
  variance: c * c * variance,
  third: c * c * c * third,
});

/** The crowd and the certain labour at c. Each cumulant is a cubic in c, so its values at c = 0, 1, 2, 3 tell all. */
export function crowdMoments(sure: number, { lines, steady, lumps, draws }: Group): (c: number) => Moments {
  const labour = sumOf(lines);
  const unmoved = sumOf([...steady, ...draws]);
  const at = [0, 1, 2, 3].map((c) => {
    const sum = sumOf([times(labour, c), unmoved, ...lumps.map((lump) => lumpMoments(lump, c))]);
    return [sum.mean + c * sure, sum.variance, sum.third] as const;
  });
  return (c) => {
    const weights = [
      -((c - 1) * (c - 2) * (c - 3)) / 6,
      (c * (c - 2) * (c - 3)) / 2,
      -(c * (c - 1) * (c - 3)) / 2,
      (c * (c - 1) * (c - 2)) / 6,
    ];
    const cubic = (which: 0 | 1 | 2) => weights.reduce((sum, weight, node) => sum + weight * at[node]![which], 0);
    return { mean: cubic(0), variance: Math.max(0, cubic(1)), third: cubic(2) };
  };
}

/** A lump, found or not, at c: B x X has raw moments p E(X), p E(X^2), p E(X^3). */
function lumpMoments({ probability: p, labour, other }: Lump, c: number): Moments {
  const { mean, variance, third } = sumOf([times(labour, c), other]);
  const first = p * mean;
  const second = p * (variance + mean * mean);
  return {
    mean: first,
    variance: second - first * first,
    third: p * (third + 3 * mean * variance + mean ** 3) - 3 * second * first + 2 * first ** 3,
  };
}
