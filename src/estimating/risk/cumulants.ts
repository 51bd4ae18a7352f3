/** Mean, variance and third cumulant: what adds up over independent amounts. */
import type { Chance } from "./model.js";

export interface Moments {
  readonly mean: number;
  readonly variance: number;
  readonly third: number;
}

/** A sum of independent amounts. */
export function sumOf(terms: readonly Moments[]): Moments {
  let mean = 0;
  let variance = 0;
  let third = 0;
  for (const term of terms) {
    mean += term.mean;
    variance += term.variance;
    third += term.third;
  }
  return { mean, variance, third };
}

/** `factor` times the amount. */
export const times = ({ mean, variance, third }: Moments, factor: number): Moments => ({
  mean: factor * mean,
  variance: factor * factor * variance,
  third: factor * factor * factor * third,
});

/** One of several amounts. None to choose from: nothing, for certain. */
export function momentsOf(outcomes: readonly Chance[]): Moments {
  const first = outcomes[0]?.amount ?? 0;
  if (outcomes.every(({ amount }) => amount === first)) return { mean: first, variance: 0, third: 0 };
  let mean = 0;
  for (const { probability, amount } of outcomes) mean += probability * amount;
  let variance = 0;
  let third = 0;
  for (const { probability, amount } of outcomes) {
    const off = amount - mean;
    variance += probability * off * off;
    third += probability * off * off * off;
  }
  return { mean, variance, third };
}

/** The amount with probability p, else nothing: B x X has raw moments p E(X), p E(X^2), p E(X^3). */
export function ifFound({ mean, variance, third }: Moments, p: number): Moments {
  const first = p * mean;
  const second = p * (variance + mean * mean);
  return {
    mean: first,
    variance: second - first * first,
    third: p * (third + 3 * mean * variance + mean ** 3) - 3 * second * first + 2 * first ** 3,
  };
}
