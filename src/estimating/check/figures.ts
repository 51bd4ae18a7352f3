/** What can be wrong with one figure, one day or one id; nothing wrong is an empty list. */

import { isDay } from "../day.js";
import type { IsoDate, Minor, Minutes, Percent, ThreePoint } from "../input.js";
import { LIMITS, type Problem } from "../problems.js";
import { found, inside, pointerTo, type Spot } from "./spot.js";

export const NONE: readonly Problem[] = [];

/** A whole number from 0 (or `least`) to `limit`. */
export function count(value: number, at: Spot, limit: number = LIMITS.count, least = 0): readonly Problem[] {
  if (Number.isInteger(value) && value >= least && value <= limit) return NONE;
  if (typeof value !== "number" || Number.isNaN(value)) return [{ name: "count missing", ...found(at) }];
  if (value < 0) return [{ name: "count negative", value, ...found(at) }];
  if (value > limit) return [{ name: "count too large", value, limit, ...found(at) }];
  return Number.isInteger(value)
    ? [{ name: "count missing", ...found(at) }]
    : [{ name: "count fractional", value, ...found(at) }];
}

/** Whole minor units from 0 to the limit. */
export function amount(value: Minor, at: Spot): readonly Problem[] {
  if (!(value >= 0 && value <= LIMITS.amount)) return [{ name: "amount out of range", value, ...found(at) }];
  return Number.isInteger(value) ? NONE : [{ name: "amount fractional", value, ...found(at) }];
}

/** The same, or below 0 by as much: a credit. */
export const signedAmount = (value: Minor, at: Spot): readonly Problem[] =>
  amount(Math.abs(value), at).length > 0 ? amount(value, at) : NONE;

export const percent = (value: Percent, at: Spot, high = 100, low = 0): readonly Problem[] =>
  value >= low && value <= high ? NONE : [{ name: "percent out of range", value, low, high, ...found(at) }];

export const minutes = (value: Minutes, at: Spot, least = 0): readonly Problem[] =>
  value >= least && value <= LIMITS.minutes ? NONE : [{ name: "minutes out of range", value, ...found(at) }];

/** Each in range, and low <= likely <= high. */
export function threePoint({ low, likely, high }: ThreePoint, at: Spot): readonly Problem[] {
  if (low >= 0 && low <= likely && likely <= high && high <= LIMITS.minutes) return NONE;
  const outside = Object.entries({ low, likely, high }).flatMap(([name, value]) => minutes(value, inside(at, [name])));
  return outside.length > 0 ? outside : [{ name: "times out of order", low, likely, high, ...found(at) }];
}

/** The check of a figure that may be absent. */
export const ifGiven = <T>(value: T | undefined, check: (value: T) => readonly Problem[]): readonly Problem[] =>
  value === undefined ? NONE : check(value);

export const checkDay = (value: IsoDate, at: Spot): readonly Problem[] =>
  isDay(value) ? NONE : [{ name: "date unreadable", value, ...found(at) }];

/** Ids that stand twice. */
export function repeated<T>(list: readonly T[], id: (entry: T) => string, what: string, at: (index: number) => Spot): Problem[] {
  const seen = new Set<string>();
  return list.flatMap((entry, index) => {
    const key = id(entry);
    if (seen.has(key)) return [{ name: "id repeated" as const, what, id: key, pointer: pointerTo(at(index)) }];
    seen.add(key);
    return [];
  });
}

type Unknown =
  | "assembly unknown"
  | "operation unknown"
  | "part type unknown"
  | "part kind unknown"
  | "labour class unknown"
  | "service unknown"
  | "tax category unknown"
  | "profile unknown";

/** An id that nothing stands for: `known` is the index that should have it. */
export const unknown = (
  name: Unknown,
  id: string,
  known: ReadonlyMap<string, unknown> | ReadonlySet<string>,
  at: Spot,
): readonly Problem[] => (known.has(id) ? NONE : [{ name, id, known: [...known.keys()], ...found(at) }]);
