import type { IsoDate } from "../estimating/input.js";
import { knownLocale, plainSpaces } from "./number.js";

/** An ISO 8601 day, such as '25 November 2026'; text that is no day stands as it is. */
export function day(iso: IsoDate, locale: string): string {
  if (!/^\d{4}-\d\d-\d\d$/.test(iso)) return iso;
  const date = new Date(`${iso}T00:00:00Z`);
  if (Number.isNaN(date.getTime())) return iso;
  return plainSpaces(formatter(locale).format(date));
}

/** Kept, because a formatter is dear to build and a document prints several days. */
function formatter(locale: string): Intl.DateTimeFormat {
  const found = kept.get(locale);
  if (found) return found;
  if (kept.size >= KEPT_AT_MOST) kept.clear();
  const made = new Intl.DateTimeFormat(knownLocale(locale), {
    year: "numeric",
    month: "long",
    day: "numeric",
    calendar: "gregory",
    numberingSystem: "latn",
    timeZone: "UTC",
  });
  kept.set(locale, made);
  return made;
}
const KEPT_AT_MOST = 16;
const kept = new Map<string, Intl.DateTimeFormat>();
