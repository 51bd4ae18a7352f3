/** Moments as milliseconds since 1970 and durations as whole thousandths of a minute, without a clock. */
import { isDay } from "../../day.js";
import { divide } from "../../money/rounding.js";
import type { Moment } from "./workLog.js";

const SHAPE = /^\d{4}-\d\d-\d\dT([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,3})?)?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/;

/** Undefined for a text that is no moment, or has no zone. */
export function readMoment(text: Moment): number | undefined {
  if (!SHAPE.test(text) || !isDay(text.slice(0, 10))) return undefined;
  const at = Date.parse(text);
  return Number.isNaN(at) ? undefined : at;
}

/** Thousandths of a minute in this many milliseconds; halves away from zero. */
export const milliOf = (milliseconds: number): number => divide(BigInt(milliseconds), 60n);
