/**
 * A line of labour in money, minor units, not rounded: its three-point time as a beta-PERT distribution, alpha = 1 + 4 (likely - low) / (high - low),
 * beta = 6 - alpha. Figures of the distribution are in the units of its points.
 */

import type { ThreePoint } from "../input.js";
import type { Moments } from "./cumulants.js";
import { type LabourRisk, worth } from "./model.js";

export interface Line extends Moments {
  readonly id: string;
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** Spreads below a hundredth of a minor unit count as none. */
export const UNFELT = 0.01;

/** The same line stands in many models, one for each option. */
const lines = new WeakMap<LabourRisk, Line>();

export function lineOf(risk: LabourRisk): Line {
  const line = lines.get(risk) ?? lineFrom(risk);
  lines.set(risk, line);
  return line;
}

function lineFrom({ id, time, ratePerHour }: LabourRisk): Line {
  const points = {
    low: worth(time.low, ratePerHour),
    likely: worth(time.likely, ratePerHour),
    high: worth(time.high, ratePerHour),
  };
  if (points.high - points.low < UNFELT) {
    const mean = points.low === points.high ? points.likely : pertMean(points);
    return { id, low: mean, likely: mean, high: mean, mean, variance: 0, third: 0 };
  }
  return {
    id,
    low: points.low,
    likely: points.likely,
    high: points.high,
    mean: pertMean(points),
    variance: pertVariance(points),
    third: pertThird(points),
  };
}

/** Shape of the beta distribution on low..high; alpha + beta is always 6. Undefined when low = high: the time is certain. */
export function pertShape({ low, likely, high }: ThreePoint): { readonly alpha: number; readonly beta: number } | undefined {
  if (!(high > low)) return undefined;
  const alpha = 1 + (4 * (likely - low)) / (high - low);
  return { alpha, beta: 6 - alpha };
}

/** (low + 4 likely + high) / 6: exact for the beta-PERT, and the classic three-point mean (Malcolm et al. 1959, from memory). */
export const pertMean = ({ low, likely, high }: ThreePoint): number => (low + 4 * likely + high) / 6;

/** Second cumulant: (mean - low)(high - mean) / 7. */
export function pertVariance(points: ThreePoint): number {
  const mean = pertMean(points);
  return Math.max(0, ((mean - points.low) * (points.high - mean)) / 7);
}

/** Third cumulant (skewness x sd cubed): (high - low)^3 alpha beta (beta - alpha) / 6048. */
export function pertThird(points: ThreePoint): number {
  const shape = pertShape(points);
  return shape === undefined
    ? 0
    : ((points.high - points.low) ** 3 * shape.alpha * shape.beta * (shape.beta - shape.alpha)) / 6048;
}
