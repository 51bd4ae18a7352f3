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

/** Two amounts with a given mean, variance and third cumulant: the two-point Gauss rule, exact for every cubic and never outside the range of what it stands for. */
export function twoPoint({ mean, variance, third }: Moments): readonly Chance[] {
  if (!(variance > 0)) return [{ probability: 1, amount: mean }];
  const sd = Math.sqrt(variance);
  const skew = third / (variance * sd);
  const half = Math.sqrt(1 + (skew * skew) / 4);
  const upper = 0.5 - skew / (4 * half);
  return [
    { probability: 1 - upper, amount: mean + sd * (skew / 2 - half) },
    { probability: upper, amount: mean + sd * (skew / 2 + half) },
  ];
}
