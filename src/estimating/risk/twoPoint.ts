/** Two amounts with a given mean, variance and third cumulant: the two-point Gauss rule, exact for every cubic and never outside the range of what it stands for. */
import type { Moments } from "./cumulants.js";
import type { Chance } from "./model.js";

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
