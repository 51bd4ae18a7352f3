/** Decimals as written by people, held as integers: minutes x 1000, percent x 10,000. */
import type { Minor, Minutes, Percent } from "../input.js";
import { type Rounding, timesOver } from "./rounding.js";

export const MILLI = 1000;
export const PERCENT_SCALE = 10_000;
/** 100 % on the percent scale. */
export const WHOLE = 100 * PERCENT_SCALE;

/** Minutes to whole thousandths of a minute. */
export const toMilli = (minutes: Minutes): number => Math.round(minutes * MILLI);
export const fromMilli = (milli: number): Minutes => milli / MILLI;
/** Percent to whole ten-thousandths of a percent. */
export const toScaledPercent = (percent: Percent): number => Math.round(percent * PERCENT_SCALE);

/** percent of an amount, in minor units. */
export const percentOf = (amount: Minor, percent: Percent, mode: Rounding = "half up"): Minor =>
  timesOver(amount, toScaledPercent(percent), WHOLE, mode);

/** Thousandths of a minute at a rate per hour, in minor units. */
export const priceMilli = (milli: number, ratePerHour: Minor): Minor => timesOver(milli, ratePerHour, 60 * MILLI);
