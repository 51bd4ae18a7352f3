/** Formatters are dear to build and used once per figure, so they are kept; a locale that no reader knows falls back to English. */
const KEPT_AT_MOST = 64;
const kept = new Map<string, Intl.NumberFormat>();

export const FALLBACK_LOCALE = "en-GB";

/** A decimal string, exactly as it stands, in the locale's notation. Latin digits, no direction marks: the fonts have no others. */
export function decimal(digits: string, locale: string, options: Intl.NumberFormatOptions): string {
  return plainSpaces(formatter(locale, options).format(digits as Intl.StringNumericLiteral));
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
  const key = `${locale} ${Object.values(options).join(" ")}`;
  const found = kept.get(key);
  if (found) return found;
  if (kept.size >= KEPT_AT_MOST) kept.clear();
  const made = new Intl.NumberFormat(knownLocale(locale), { numberingSystem: "latn", ...options });
  kept.set(key, made);
  return made;
}

/** A whole number and its scale as a decimal string: (12345, 2) is '123.45'. */
export function decimalString(whole: number, scale: number): string {
  const sign = whole < 0 ? "-" : "";
  const digits = String(Math.abs(whole)).padStart(scale + 1, "0");
  return scale === 0 ? sign + digits : `${sign}${digits.slice(0, -scale)}.${digits.slice(-scale)}`;
}

/** A number as a person wrote it, in the locale's notation, to three decimals. */
export const plainNumber = (value: number, locale: string): string =>
  decimal(String(value), locale, { style: "decimal", maximumFractionDigits: 3 });
