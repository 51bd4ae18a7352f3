/** P80 of a hundred items and of a lumpy job, by the distribution and by so many simulated jobs, against a million simulated ones. */
import { distributionOf } from "../../src/estimating/risk/distribution.js";
import { JOB_SHAPES } from "../estimating/risk/jobShapes.js";
import { quantileOf, simulate } from "../estimating/risk/simulation.js";

const SHAPES = ["hundred items", "small work, three large faults", "six scarce parts"];
const REFERENCE = 1_000_000;
const SEEDS = 12;

export interface Accuracy {
  readonly shape: string;
  /** Off at P80, in percent: the distribution's, and the root mean square over the simulations. */
  readonly distribution: number;
  readonly simulation: number;
}

export const accuracyAgainst = (draws: number): Accuracy[] =>
  SHAPES.map((shape) => {
    const model = JOB_SHAPES[shape]!;
    const reference = quantileOf(simulate(model, REFERENCE, 1), 0.8);
    const off = (p80: number) => 100 * (p80 / reference - 1);
    const squares = Array.from({ length: SEEDS }, (_, seed) => off(quantileOf(simulate(model, draws, seed + 2), 0.8)) ** 2);
    return {
      shape,
      distribution: Math.abs(off(distributionOf(model).quantile(0.8))),
      simulation: Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / SEEDS),
    };
  });
