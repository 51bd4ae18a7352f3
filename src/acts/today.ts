import type { IsoDate } from "../estimating/input.js";
import { timeFormat } from "../wording/time.js";

/** The day it is at the shop. `timeZone` is an IANA name. */
export function today(now: Date, timeZone: string): IsoDate {
  const parts = timeFormat("en-GB", "numbers", timeZone, { year: "numeric", month: "2-digit", day: "2-digit" }).formatToParts(
    now,
  );
  const of = (type: string) => parts.find((part) => part.type === type)?.value ?? "";
  return `${of("year")}-${of("month")}-${of("day")}`;
}
