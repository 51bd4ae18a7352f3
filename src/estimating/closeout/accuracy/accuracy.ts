/** How good estimates were. Error = actual less estimated, so a positive bias means that jobs come to more than was said. */
import type { Percent } from "../../input.js";
import { mean, median, type ShareInterval, shareInterval, standardDeviation } from "../statistics.js";

/** Any one unit: minor units, or minutes. */
export interface Forecast {
  /** As likely too high as too low. */
  readonly p50: number;
  /** Passed by one job in five. */
  readonly p80?: number;
  readonly actual: number;
}

export interface Coverage extends ShareInterval {
  readonly within: number;
  readonly of: number;
  /** Clopper-Pearson, 95 %. A range that holds 0.8 does not speak against the P80. */
  readonly share: number;
}

export interface Accuracy {
  readonly jobs: number;
  /** In the unit of the figures, not rounded. */
  readonly bias: number;
  readonly spread?: number;
  readonly meanAbsoluteError: number;
  /** Of the actual; jobs that came to nothing are left out. */
  readonly meanAbsolutePercent?: Percent;
  readonly medianAbsolutePercent?: Percent;
  /** Mean quantile loss at 0.5 and 0.8: the lower, the better placed the figure. */
  readonly pinball50: number;
  readonly pinball80?: number;
  readonly coverage80?: Coverage;
}

/** Undefined without forecasts. */
export function accuracyOf(forecasts: readonly Forecast[]): Accuracy | undefined {
  const errors: number[] = [];
  const percents: number[] = [];
  const losses: number[] = [];
  let within = 0;
  for (const { actual, p50, p80 } of forecasts) {
    errors.push(actual - p50);
    if (actual !== 0) percents.push((100 * Math.abs(actual - p50)) / Math.abs(actual));
    if (p80 === undefined) continue;
    losses.push(pinball(actual - p80, 0.8));
    if (actual <= p80) within += 1;
  }
  const bias = mean(errors);
  if (bias === undefined) return undefined;
  const spread = standardDeviation(errors);
  const [mape, mdape, pinball80] = [mean(percents), median(percents), mean(losses)];
  return {
    jobs: forecasts.length,
    bias,
    ...(spread !== undefined && { spread }),
    meanAbsoluteError: mean(errors.map(Math.abs))!,
    ...(mape !== undefined && { meanAbsolutePercent: mape }),
    ...(mdape !== undefined && { medianAbsolutePercent: mdape }),
    pinball50: mean(errors.map((error) => pinball(error, 0.5)))!,
    ...(pinball80 !== undefined && {
      pinball80,
      coverage80: coverage(within, losses.length),
    }),
  };
}

/** Quantile loss of an error. */
const pinball = (error: number, level: number): number => (error >= 0 ? level * error : (level - 1) * error);

/** of > 0. */
export const coverage = (within: number, of: number): Coverage => ({
  within,
  of,
  share: within / of,
  ...shareInterval(within, of),
});
