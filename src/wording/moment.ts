import { knownLocale, plainSpaces } from "./number.js";

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
