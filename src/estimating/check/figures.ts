/** What can be wrong with one figure. Each takes the phrase a person reads and the JSON pointer; none yet known to be wrong gives []. */
import type { Minor, Minutes, Percent, ThreePoint } from "../input.js";
import { LIMITS, type Problem } from "../problems.js";

/** A whole number from 0 (or `least`) to `limit`. */
export function count(value: number, where: string, pointer: string, limit: number = LIMITS.count, least = 0): Problem[] {
  if (typeof value !== "number" || Number.isNaN(value)) return [{ name: "count missing", where, pointer }];
  if (value < 0) return [{ name: "count negative", where, value, pointer }];
  if (value > limit) return [{ name: "count too large", where, value, limit, pointer }];
  if (!Number.isInteger(value)) return [{ name: "count fractional", where, value, pointer }];
  return value < least ? [{ name: "count missing", where, pointer }] : [];
}

/** Whole minor units from 0 to the limit. */
export function amount(value: Minor, where: string, pointer: string): Problem[] {
  if (!(value >= 0 && value <= LIMITS.amount)) return [{ name: "amount out of range", where, value, pointer }];
  return Number.isInteger(value) ? [] : [{ name: "amount fractional", where, value, pointer }];
}

export const percent = (value: Percent, where: string, pointer: string, high = 100, low = 0): Problem[] =>
  value >= low && value <= high ? [] : [{ name: "percent out of range", where, value, low, high, pointer }];

export const minutes = (value: Minutes, where: string, pointer: string, least = 0): Problem[] =>
  value >= least && value <= LIMITS.minutes ? [] : [{ name: "minutes out of range", where, value, pointer }];

/** Each in range, and low <= likely <= high. */
export function threePoint({ low, likely, high }: ThreePoint, where: string, pointer: string): Problem[] {
  const outside = Object.entries({ low, likely, high }).flatMap(([name, value]) => minutes(value, where, `${pointer}/${name}`));
  if (outside.length > 0) return outside;
  return low <= likely && likely <= high ? [] : [{ name: "times out of order", where, low, likely, high, pointer }];
}
