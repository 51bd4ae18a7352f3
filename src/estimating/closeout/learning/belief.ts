/**
 * What is believed of a quantity that varies by the job, on a natural log scale: normal with unknown mean and variance, and a
 * normal-inverse-gamma belief about the two. Shrinkage is by counting: the belief before the data weighs as `k` observations.
 */

import type { Percent, RateBook } from "../../input.js";
import { conditionSigma } from "../../risk/condition.js";
import { studentTQuantile } from "../statistics.js";

export interface Belief {
  readonly mean: number;
  /** Observations the mean rests on. */
  readonly k: number;
  /** Shape and scale of the variance. */
  readonly a: number;
  readonly b: number;
}

export interface Weighed {
  readonly x: number;
  /** 1 for a whole observation, less for a part of one. */
  readonly weight: number;
}

/** Conjugate update: kn = k + n, mn = (k m + n x̄) / kn, an = a + n/2, bn = b + SS/2 + k n (x̄ - m)² / (2 kn); n is the sum of the weights. */
export function updated({ mean, k, a, b }: Belief, data: readonly Weighed[]): Belief {
  let [n, sum] = [0, 0];
  for (const { x, weight } of data) {
    n += weight;
    sum += weight * x;
  }
  if (!(n > 0)) return { mean, k, a, b };
  const centre = sum / n;
  const squares = data.reduce((total, { x, weight }) => total + weight * (x - centre) ** 2, 0);
  return {
    mean: (k * mean + n * centre) / (k + n),
    k: k + n,
    a: a + n / 2,
    b: b + squares / 2 + (k * n * (centre - mean) ** 2) / (2 * (k + n)),
  };
}

/** The next observation: Student's t with 2a degrees of freedom, this centre and scale. */
const scaleOf = ({ k, a, b }: Belief): number => Math.sqrt((b * (k + 1)) / (a * k));

export const predictedQuantile = (belief: Belief, p: number): number =>
  belief.mean + scaleOf(belief) * studentTQuantile(p, 2 * belief.a);

/** Variance of the next observation; a > 1. */
export const predictedVariance = ({ k, a, b }: Belief): number => (b * (k + 1)) / ((a - 1) * k);

/** A belief whose next observation has this mean and variance. */
export const beliefWith = (mean: number, variance: number, k: number, a: number): Belief => ({
  mean,
  k,
  a,
  b: (variance * (a - 1) * k) / (k + 1),
});

/** A condition grade as the book has it, and as it is believed to be. */
export interface GradeBelief {
  readonly id: string;
  readonly name: string;
  readonly labourPercent: Percent;
  /** What all minutes are to be multiplied by beyond the book's percentage. 1 for the grade the others are reckoned from. */
  readonly factor: number;
  /** Coefficient of variation of the unit-condition factor, by the book and as learnt. */
  readonly bookCv: number;
  readonly cv: number;
  readonly jobs: number;
}

/** Variance of the log of the unit-condition factor. */
export const conditionVariance = (cv: number): number => conditionSigma(cv) ** 2;

/** As the book has them. */
export const gradesOf = ({ grades }: RateBook): ReadonlyMap<string, GradeBelief> =>
  new Map(
    grades.map(({ id, name, labourPercent, spreadPercent }) => {
      const cv = spreadPercent / 100;
      return [id, { id, name, labourPercent, factor: 1, bookCv: cv, cv, jobs: 0 }];
    }),
  );

/** Shrinkage: how much the rate book itself weighs against what was observed. */
export interface Strength {
  /** Observations that a standard's mean counts for. */
  readonly mean: number;
  /** Half the observations that its spread counts for, and the same for a grade; above 1. */
  readonly spread: number;
}
export const USUAL_STRENGTH: Strength = { mean: 4, spread: 3 };
