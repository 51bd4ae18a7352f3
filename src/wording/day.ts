import type { IsoDate } from "../estimating/input.js";
import { knownLocale, plainSpaces } from "./number.js";

/** An ISO 8601 day, such as '25 November 2026'; text that is no day stands as it is. */
export function day(iso: IsoDate, locale: string): string {
  if (!/^\d{4}-\d\d-\d\d$/.test(iso)) return iso;
  const date = new Date(`${iso}T00:00:00Z`);
  if (Number.isNaN(date.getTime())) return iso;
  return plainSpaces(
    new Intl.DateTimeFormat(knownLocale(locale), {
      year: "numeric",
      month: "long",
      day: "numeric",
      calendar: "gregory",
      numberingSystem: "latn",
      timeZone: "UTC",
    }).format(date),
  );
}
