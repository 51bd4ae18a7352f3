/** Days, moments and durations. */
import type { IsoDate, Minutes } from "../estimating/input.js";
import { decimal, FALLBACK_LOCALE, knownLocale, plainSpaces } from "./figures.js";

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

/** A moment as people there write it, with its zone: '25 November 2026 at 10:30 CET'. `iso` is in UTC; `timeZone` an IANA name. */
export const moment = (iso: string, locale: string, timeZone: string): string =>
  plainSpaces(
    new Intl.DateTimeFormat(knownLocale(locale), {
      year: "numeric",
      month: "long",
      day: "numeric",
      hour: "2-digit",
      minute: "2-digit",
      timeZoneName: "short",
      calendar: "gregory",
      numberingSystem: "latn",
      timeZone,
    }).format(new Date(iso)),
  );

/** The time of day: '10:30'. `iso` is in UTC; `timeZone` an IANA name. */
export const clock = (iso: string, locale: string, timeZone: string): string =>
  plainSpaces(
    new Intl.DateTimeFormat(knownLocale(locale), {
      hour: "2-digit",
      minute: "2-digit",
      numberingSystem: "latn",
      timeZone,
    }).format(new Date(iso)),
  );

/** From an hour up in hours and whole minutes, below it to a tenth of a minute. */
export function duration(minutes: Minutes, locale: string = FALLBACK_LOCALE): string {
  const tenths = Math.round(Math.abs(minutes) * 10);
  const sign = minutes < 0 && tenths > 0 ? "-" : "";
  if (tenths < 600) return `${sign}${decimal(String(tenths / 10), locale, { maximumFractionDigits: 1 })}\u00a0min`;
  const whole = Math.round(tenths / 10);
  const hours = `${sign}${Math.floor(whole / 60)}\u00a0h`;
  return whole % 60 === 0 ? hours : `${hours} ${whole % 60}\u00a0min`;
}
