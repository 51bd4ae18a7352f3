/** A beta-PERT line of labour in money, minor units, not rounded. */
import type { Moments } from "./cumulants.js";
import { type LabourRisk, worth } from "./model.js";
import { pertMean, pertThird, pertVariance } from "./pert.js";

export interface Line extends Moments {
  readonly id: string;
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** Spreads below a hundredth of a minor unit count as none. */
export const UNFELT = 0.01;

export function lineOf({ id, time, ratePerHour }: LabourRisk): Line {
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
