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

export function lineOf({ id, time, ratePerHour }: LabourRisk): Line {
  const points = {
    low: worth(time.low, ratePerHour),
    likely: worth(time.likely, ratePerHour),
    high: worth(time.high, ratePerHour),
  };
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
