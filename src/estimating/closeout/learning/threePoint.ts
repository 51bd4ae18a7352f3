/**
 * Between a three-point time and the mean and spread of what it stands for. A three-point is read as its beta-PERT (risk/line.ts),
 * and that as the lognormal of the same mean and variance, so that it can be learnt from on a log scale.
 */
import type { ThreePoint } from "../../input.js";
import { LIMITS } from "../../problems.js";
import { pertMean, pertVariance } from "../../risk/line.js";

/** Mean in units of `likely`, and variance of the natural log. */
export interface Shape {
  readonly mean: number;
  readonly variance: number;
}

export function shapeOf(time: ThreePoint): Shape {
  const mean = pertMean(time);
  return { mean: mean / time.likely, variance: Math.log1p(pertVariance(time) / (mean * mean)) };
}

/** How far the three points move: likely by `factor`, the logs of low/likely and high/likely by `stretch`. */
interface Move {
  readonly factor: number;
  readonly stretch: number;
  /** The shape that times without spread are given; absent where the reference has a spread of its own. */
  readonly given?: ThreePoint;
}

/** Half to double: common practice, no source. */
const USUAL: ThreePoint = { low: 0.5, likely: 1, high: 2 };
const MOST_STRETCH = 8;

const stretched = ({ low, likely, high }: ThreePoint, stretch: number): ThreePoint => ({
  low: low === 0 ? 0 : (low / likely) ** stretch,
  likely: 1,
  high: (high / likely) ** stretch,
});

/** The move after which the reference has the wanted mean (in units of its likely) and log variance; bisection, the spread grows with the stretch. */
export function moveTo(reference: ThreePoint, wanted: Shape): Move {
  const spread = reference.high > reference.low;
  const shape = spread ? reference : USUAL;
  const was = shapeOf(shape).variance;
  let [low, high] = wanted.variance < was ? [0, 1] : [1, MOST_STRETCH];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (shapeOf(stretched(shape, middle)).variance < wanted.variance) low = middle;
    else high = middle;
  }
  const stretch = (low + high) / 2;
  return { factor: wanted.mean / shapeOf(stretched(shape, stretch)).mean, stretch, ...(!spread && { given: USUAL }) };
}

/** To the thousandth of a minute, and never beyond what the rate book may say. */
export function moved(time: ThreePoint, { factor, stretch, given }: Move): ThreePoint {
  const { low, likely, high } = time;
  const rounded = (minutes: number) => Math.min(LIMITS.minutes, Math.round(minutes * 1000) / 1000);
  if (likely === 0) return { low: 0, likely: 0, high: rounded(high * factor) };
  const at = stretched(high > low ? time : (given ?? time), stretch);
  return { low: rounded(likely * factor * at.low), likely: rounded(likely * factor), high: rounded(likely * factor * at.high) };
}
