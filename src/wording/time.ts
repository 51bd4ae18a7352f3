/** Days, moments and durations. */
import type { IsoDate, Minutes } from "../estimating/input.js";
import { decimal, FALLBACK_LOCALE, knownLocale, plainSpaces } from "./figures.js";
import { keeping } from "./kept.js";

/**
 * A locale for figures whose days are in the words of a language. Figures follow the region and days the language of what is around them:
 * English ones wherever nothing else is said, as on every page of the shop. Intl passes private use (RFC 5646, 2.2.7) over.
 */
export const spokenIn = (locale: string, language: string): string =>
  language === "en" ? locale : `${locale}${SPOKEN}${language}`;
const SPOKEN = "-x-";
export const regionOf = (locale: string): string => locale.split(SPOKEN)[0] ?? "";

/** Where its language is spoken in that region, as people there write. */
function inWords(locale: string): string {
  const [region = "", language = "en"] = locale.split(SPOKEN);
  const known = knownLocale(region);
  if (new Intl.Locale(known).language === language) return known;
  return language === "en" ? FALLBACK_LOCALE : knownLocale(language);
}

const formatters = keeping<Intl.DateTimeFormat>(64);

/** Writes moments of one zone as a locale does, in the Gregorian calendar and Latin digits. `options` are those of `as`. */
export function timeFormat(
  locale: string,
  as: string,
  timeZone: string,
  options: Intl.DateTimeFormatOptions,
): Intl.DateTimeFormat {
  return formatters(
    `${as} ${locale} ${timeZone}`,
    () =>
      new Intl.DateTimeFormat(inWords(locale), {
        ...{ ...options, timeZone },
        ...{ calendar: "gregory", numberingSystem: "latn" },
      }),
  );
}

const DAY = { year: "numeric", month: "long", day: "numeric" } as const;
const CLOCK = { hour: "2-digit", minute: "2-digit" } as const;

/** An ISO 8601 day, such as '25 November 2026'; text that is no day stands as it is. */
export function day(iso: IsoDate, locale: string): string {
  if (!/^\d{4}-\d\d-\d\d$/.test(iso)) return iso;
  const date = new Date(`${iso}T00:00:00Z`);
  if (Number.isNaN(date.getTime())) return iso;
  return plainSpaces(timeFormat(locale, "day", "UTC", DAY).format(date));
}

/** A moment as people there write it, with its zone: '25 November 2026 at 10:30 CET'. `iso` is in UTC; `timeZone` an IANA name. */
export const moment = (iso: string, locale: string, timeZone: string): string =>
  plainSpaces(timeFormat(locale, "moment", timeZone, { ...DAY, ...CLOCK, timeZoneName: "short" }).format(new Date(iso)))
    // London's winter in German.
    .replace(/GMT\+0$/, "GMT");

/** What a clock on the wall showed: '25 November 2026 at 10:30'. `time` is such as 10:30. */
export const onTheWall = (date: IsoDate, time: string, locale: string): string =>
  plainSpaces(timeFormat(locale, "wall", "UTC", { ...DAY, ...CLOCK }).format(new Date(`${date}T${time}:00Z`)));

/** The time of day: '10:30'. `iso` is in UTC; `timeZone` an IANA name. */
export const clock = (iso: string, locale: string, timeZone: string): string =>
  plainSpaces(timeFormat(locale, "clock", timeZone, CLOCK).format(new Date(iso)));

/** From an hour up in hours and whole minutes, below it to a tenth of a minute. */
export function duration(minutes: Minutes, locale: string = FALLBACK_LOCALE): string {
  const tenths = Math.round(Math.abs(minutes) * 10);
  const sign = minutes < 0 && tenths > 0 ? "-" : "";
  if (tenths < 600) return `${sign}${decimal(String(tenths / 10), locale, { maximumFractionDigits: 1 })}\u00a0min`;
  const whole = Math.round(tenths / 10);
  const hours = `${sign}${Math.floor(whole / 60)}\u00a0h`;
  return whole % 60 === 0 ? hours : `${hours} ${whole % 60}\u00a0min`;
}
