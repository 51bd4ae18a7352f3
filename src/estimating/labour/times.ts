/** Invariant: times are whole thousandths of a minute, so they add up exactly in any order. */
import type { Percent, RateBook, ThreePoint } from "../input.js";
import { timesOver } from "../money/rounding.js";
import { fromMilli, toMilli, toScaledPercent, WHOLE } from "../money/scales.js";
import type { Line } from "../sheet.js";

/** Low, likely and high in thousandths of a minute. */
export interface Times {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export const NO_TIME: Times = { low: 0, likely: 0, high: 0 };

const each = (times: Times, change: (milli: number) => number): Times => ({
  low: change(times.low),
  likely: change(times.likely),
  high: change(times.high),
});

export const inMilli = (minutes: ThreePoint): Times => each(minutes, toMilli);
export const inMinutes = (times: Times): ThreePoint => each(times, fromMilli);
/** The mean of a three-point time by PERT, (low + 4 likely + high) / 6 (Malcolm, Roseboom, Clark and Fazar 1959), to the thousandth of a minute. */
export const expected = ({ low, likely, high }: Times): number => timesOver(low + 4 * likely + high, 1, 6);
/** What a count charges of a time, in thousandths of a minute. */
export const chargedMilli = (time: Times, { billing }: RateBook): number =>
  billing.minutes === "expected" ? expected(time) : time.likely;
/** The three figures that a line's minutes are the mean of. */
export const threeFigures = (time: Times, { billing }: RateBook): Pick<Line, "times"> =>
  billing.minutes === "expected" && time.low !== time.high ? { times: inMinutes(time) } : {};

export const times = (time: Times, count: number): Times => each(time, (milli) => milli * count);

export const plus = (a: Times, b: Times): Times => ({
  low: a.low + b.low,
  likely: a.likely + b.likely,
  high: a.high + b.high,
});

export function sumOfTimes(all: readonly Times[]): Times {
  let [low, likely, high] = [0, 0, 0];
  for (const times of all) {
    low += times.low;
    likely += times.likely;
    high += times.high;
  }
  return { low, likely, high };
}

/** The condition grade's percentage of a time, rounded to the thousandth of a minute. */
export function graded(time: Times, percent: Percent): Times {
  const scaled = toScaledPercent(percent);
  return scaled === WHOLE ? time : each(time, (milli) => timesOver(milli, scaled, WHOLE));
}

export interface LabourLine {
  readonly line: Line;
  readonly times: Times;
  readonly attended: boolean;
  readonly labourClass: string;
  /** Sold at a price that its time does not change. */
  readonly flat?: true;
  /** Id of the item sold that it is behind: it bears no charge and is on no owner's paper. */
  readonly behind?: string;
}

/** Whether its minutes are what is charged. */
export const isByTime = ({ flat, behind }: LabourLine): boolean => !flat && behind === undefined;
