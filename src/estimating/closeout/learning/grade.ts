/** A condition grade as the book has it, and as it is believed to be. */
import type { Percent, RateBook } from "../../input.js";
import { conditionSigma } from "../../risk/condition.js";

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
