/** Numbers, money and percent in a locale's notation. */
import type { CurrencyCode, Minor, Percent } from "../estimating/input.js";
import { decimalsOf } from "../estimating/money/currency.js";
import { keeping } from "./kept.js";

/** How a person reads figures: a BCP 47 locale and the ISO 4217 currency of the estimate. */
export interface Figures {
  readonly locale: string;
  readonly currency: CurrencyCode;
}

/** Formatters are dear to build and used once per figure, so they are kept; a locale that no reader knows falls back to English. */
const formatters = keeping<Intl.NumberFormat>(64);
/** A page writes the same few figures again and again, and Intl takes its time over each. */
const written = keeping<string>(2000);

export const FALLBACK_LOCALE = "en-GB";

/** A decimal string, exactly as it stands, in the locale's notation. Latin digits, no direction marks: the fonts have no others. */
export function decimal(digits: string, locale: string, options: Intl.NumberFormatOptions): string {
  return written(`${locale} ${Object.values(options).join(" ")} ${digits}`, () =>
    plainSpaces(formatter(locale, options).format(digits as Intl.StringNumericLiteral)),
  );
}

export function knownLocale(locale: string): string {
  try {
    return Intl.getCanonicalLocales(locale)[0] ?? FALLBACK_LOCALE;
  } catch {
    return FALLBACK_LOCALE;
  }
}

export const plainSpaces = (text: string): string =>
  text.replaceAll(/[\u202f\u2009]/g, "\u00a0").replaceAll(/[\u200e\u200f\u061c]/g, "");

function formatter(locale: string, options: Intl.NumberFormatOptions): Intl.NumberFormat {
  return formatters(
    `${locale} ${Object.values(options).join(" ")}`,
    () => new Intl.NumberFormat(knownLocale(locale), { numberingSystem: "latn", ...options }),
  );
}

/** A whole number and its scale as a decimal string: (12345, 2) is '123.45'. */
function decimalString(whole: number, scale: number): string {
  const sign = whole < 0 ? "-" : "";
  const digits = String(Math.abs(whole)).padStart(scale + 1, "0");
  return scale === 0 ? sign + digits : `${sign}${digits.slice(0, -scale)}.${digits.slice(-scale)}`;
}

/** A number as a person wrote it, in the locale's notation, to three decimals. */
export const plainNumber = (value: number, locale: string): string =>
  decimal(String(value), locale, { style: "decimal", maximumFractionDigits: 3 });

/** Used only for a code the currency table does not know; the engine refuses those. */
const USUAL_DECIMALS = 2;
const E4 = 10_000;

/** Minor units as money. The scale comes from ISO 4217, not from Intl. */
export const money = (amount: Minor, { locale, currency }: Figures): string => {
  const decimals = decimalsOf(currency) ?? USUAL_DECIMALS;
  return asMoney(decimalString(amount, decimals), locale, currency, decimals);
};

/** Ten-thousandths of a minor unit as money, in as many digits as the currency has: '≈' where that is not all of it, '<' below the least coin. */
export const unitPrice = (e4: number, figures: Figures): string => {
  const whole = Math.round(e4 / E4);
  if (e4 % E4 === 0) return money(whole, figures);
  return whole === 0 ? `< ${money(1, figures)}` : `≈ ${money(whole, figures)}`;
};

function asMoney(digits: string, locale: string, currency: string, decimals: number): string {
  if (!/^[A-Z]{3}$/.test(currency)) return `${digits} ${currency}`;
  return decimal(digits, locale, {
    style: "currency",
    currency,
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  });
}

/** Money along an axis: no decimals where they are all nought. */
export function roundMoney(amount: Minor, figures: Figures): string {
  const { locale, currency } = figures;
  const scale = 10 ** (decimalsOf(currency) ?? 0);
  if (amount % scale !== 0 || !/^[A-Z]{3}$/.test(currency)) return money(amount, figures);
  return decimal(String(amount / scale), locale, { style: "currency", currency, maximumFractionDigits: 0 });
}

const SCALE = 4;

/** Percent to four decimals, without trailing noughts. */
export const percent = (value: Percent, locale: string): string =>
  decimal(decimalString(Math.round(value * 10 ** SCALE), SCALE + 2), locale, {
    style: "percent",
    maximumFractionDigits: SCALE,
  });

/** A probability or share, 0 to 1, to a tenth of a percent. */
export const chance = (share: number, locale: string): string =>
  decimal(decimalString(Math.round(share * 1000), 3), locale, { style: "percent", maximumFractionDigits: 1 });

/** Where a scale is marked: whole multiples of 1, 2 or 5 times a power of ten, no more than one above `most`. */
export function ticks(from: number, to: number, most: number): number[] {
  const rough = (to - from) / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = Math.max(1, power * [1, 2, 5, 10].find((times) => power * times >= rough)!);
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.floor(to / step) - first + 1 }, (_, index) => (first + index) * step);
}
