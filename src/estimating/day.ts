/** Calendar days as ISO 8601 dates (proleptic Gregorian), without a clock or a time zone. */
import type { IsoDate } from "./input.js";

/** Years a repair shop's paper can carry. */
const [FIRST, LAST] = [1900, 2999];

export function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const year = Number(text.slice(0, 4));
  const time = Date.parse(`${text}T00:00:00Z`);
  return year >= FIRST && year <= LAST && !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}

export function addDays(day: IsoDate, days: number): IsoDate {
  const date = new Date(`${day}T00:00:00Z`);
  date.setUTCDate(date.getUTCDate() + days);
  return date.toISOString().slice(0, 10);
}
