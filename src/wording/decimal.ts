/**
 * Numbers as people of a locale write them: '1,234.50', '1 234,50', '£1,234.50', '1.5'. A decimal is held as an exact plain
 * string ('-1234.50') until it becomes a whole number of small units, so no digit is lost on the way.
 */
import { decimalsOf } from "../estimating/money/currency.js";
import { keeping } from "./kept.js";

type Decimal = { readonly ok: true; readonly plain: string } | { readonly ok: false; readonly why: "unreadable" | "ambiguous" };

const SPACES = /[\s\u00a0\u202f'’]/g;

/** `mark` is the locale's decimal sign. Only '1,234' where the comma is the decimal sign, or the like, is called ambiguous. */
function readDecimal(text: string, mark: string, maxDecimals: number): Decimal {
  let rest = text.replace(SPACES, "");
  const negative = /^[-−]/.test(rest);
  rest = rest.replace(/^[-−+]/, "");
  if (!/^[\d.,]+$/.test(rest) || !/\d/.test(rest)) return { ok: false, why: "unreadable" };

  const split = splitDecimals(rest, mark, maxDecimals);
  if (split === "unreadable" || split === "ambiguous") return { ok: false, why: split };
  const [whole, decimals] = split;
  const plain = whole.replace(/^0+(?=\d)/, "") || "0";
  return { ok: true, plain: `${negative ? "-" : ""}${plain}${decimals ? `.${decimals}` : ""}` };
}

function splitDecimals(rest: string, mark: string, maxDecimals: number): [string, string] | "unreadable" | "ambiguous" {
  const separators = [...rest].filter((char) => char === "." || char === ",");
  const last = separators.at(-1);
  if (last === undefined) return [rest, ""];
  const at = rest.lastIndexOf(last);
  const [before, after] = [rest.slice(0, at), rest.slice(at + 1)];
  // Threes, or twos before the last three (1,00,000).
  const grouped = (part: string, sign: string): string | "unreadable" => {
    const [first = "", ...groups] = part.split(sign);
    const sound = groups.every((group, index) => (index === groups.length - 1 ? /^\d{3}$/ : /^\d{2,3}$/).test(group));
    return groups.length === 0 || (/^\d{1,3}$/.test(first) && sound) ? part.replaceAll(sign, "") : "unreadable";
  };
  const other = last === "." ? "," : ".";
  const alone = separators.length === 1;
  if (!alone && separators.every((sign) => sign === last)) {
    const whole = grouped(rest, last);
    return whole === "unreadable" ? whole : [whole, ""];
  }
  if (!alone) {
    if (separators.filter((sign) => sign === last).length > 1) return "unreadable";
    const whole = grouped(before, other);
    return whole === "unreadable" ? whole : [whole, after];
  }
  const looksGrouped = /^\d{1,3}$/.test(before) && /^\d{3}$/.test(after);
  if (last !== mark && looksGrouped) return [before + after, ""];
  if (last === mark && looksGrouped && maxDecimals < 3) return "ambiguous";
  return [before, after];
}

interface Figure {
  readonly mark: string;
  /** Most digits after the sign. */
  readonly decimals: number;
  /** The currency whose decimals those are. */
  readonly currency?: string;
  /** A fraction where none can be: told here, or left to whoever knows what the figure is of. */
  readonly fraction?: "left";
  /** So many digits after the sign are never taken for thousands; absent: `decimals`. */
  readonly digits?: number;
}

/** What is typed as plain digits, or what is wrong with it: every form and table says it so. Undefined where nothing is typed. */
export function readFigure(
  text: string,
  { mark, decimals, currency, fraction, digits = decimals }: Figure,
): { readonly plain: string } | { readonly wrong: string } | undefined {
  const trimmed = text.trim();
  if (trimmed === "") return undefined;
  const wrong = (why: string) => ({ wrong: `'${trimmed.length > 60 ? `${trimmed.slice(0, 60)}…` : trimmed}' ${why}` });
  const read = readDecimal(trimmed, mark, digits);
  if (!read.ok)
    return read.why === "ambiguous"
      ? wrong(`can be read in two ways; write 1${mark}5 for a fraction, and thousands without a sign between.`)
      : wrong(`is not a number; write it like 12 or 1${mark}5.`);
  if (read.plain.length > 24) return wrong("is longer than any real figure; check it.");
  const after = read.plain.split(".")[1]?.replace(/0+$/, "").length ?? 0;
  if (after <= decimals || fraction === "left") return read;
  if (currency !== undefined) return wrong(`has more decimals than ${currency} has (${decimals}); round it.`);
  return wrong(decimals === 0 ? "is not whole; give a whole number." : `has more than ${decimals} decimals; round it.`);
}

/** A sign or a code of the currency may stand before or after the figure. */
export function withoutCurrency(
  text: string,
  { locale, currency }: { readonly locale: string; readonly currency: string },
): string {
  const sign = decimalsOf(currency) === undefined ? currency : signOf(locale, currency);
  let rest = text.trim().replace(/\p{Sc}/gu, "");
  for (const mark of [sign, currency]) {
    if (rest.toLowerCase().startsWith(mark.toLowerCase())) rest = rest.slice(mark.length);
    if (rest.toLowerCase().endsWith(mark.toLowerCase())) rest = rest.slice(0, -mark.length);
  }
  return rest;
}

const signs = keeping<string>(64);
const signOf = (locale: string, currency: string): string =>
  signs(
    `${locale} ${currency}`,
    () =>
      new Intl.NumberFormat(locale, { style: "currency", currency, currencyDisplay: "narrowSymbol" })
        .formatToParts(0)
        .find((part) => part.type === "currency")?.value ?? currency,
  );

/** Moves the decimal point: `shift("1.5", 2)` is "150"; negative places divide. Exact. */
export function shift(plain: string, places: number): string {
  const negative = plain.startsWith("-");
  const [whole = "", decimals = ""] = plain.replace("-", "").split(".");
  const digits = places >= 0 ? whole + decimals.padEnd(places, "0") : whole.padStart(1 - places, "0") + decimals;
  const point = places >= 0 ? whole.length + places : Math.max(whole.length, 1 - places) + places;
  const left = digits.slice(0, point).replace(/^0+(?=\d)/, "") || "0";
  const right = digits.slice(point).replace(/0+$/, "");
  return `${negative ? "-" : ""}${left}${right ? `.${right}` : ""}`;
}

/** A number as plain digits, never in powers of ten. */
export function plainOf(value: number): string {
  const text = String(value);
  const [mantissa = "", exponent] = text.split("e");
  return exponent === undefined ? text : shift(mantissa, Number(exponent));
}

const marks = keeping<string>(64);
export const decimalMark = (locale: string): string =>
  marks(locale, () => {
    try {
      return new Intl.NumberFormat(locale).formatToParts(1.5).find((part) => part.type === "decimal")?.value ?? ".";
    } catch {
      return ".";
    }
  });

/** Plain digits as the locale writes them, without grouping. */
export const typed = (plain: string, mark: string): string => plain.replace(".", mark === "," ? "," : ".");

/** Minor units as the currency writes them, with a point: 1250 of EUR is 12.50. */
export function amountText(minor: number, currency: string): string {
  const decimals = decimalsOf(currency) ?? 0;
  const [whole, rest = ""] = shift(plainOf(minor), -decimals).split(".");
  return decimals === 0 ? whole! : `${whole}.${rest.padEnd(decimals, "0")}`;
}
