/** What a cell can be read as. A reader answers a value, nothing for an empty cell, or why it cannot be read. */
import { decimalsOf } from "../../estimating/money/currency.js";
import { readDecimal, shift } from "../../wording/decimal.js";
import type { Saying } from "../../wording/saying.js";

export type CellRead = { readonly value: unknown } | { readonly why: string };
export type Reader = (text: string, mark: string) => CellRead;

export interface Field {
  /** Key of the value, and name of the field in a form. */
  readonly name: string;
  readonly label: string;
  /** Headings it is known by, in small letters; the name itself is one. */
  readonly headings: readonly string[];
  readonly needed?: boolean;
  readonly read: Reader;
}

const trimmed = (text: string): string => text.trim();

/** As it stands, spaces too. */
export const asText: Reader = (text) => ({ value: text });
export const asWord: Reader = (text) => ({ value: trimmed(text) });

/** `unit` may stand behind it: '63 V', '20 %'. */
export const asNumber =
  (unit: RegExp = /$^/, decimals = 4): Reader =>
  (text, mark) => {
    const read = readDecimal(trimmed(text).replace(unit, ""), mark, decimals);
    if (read.ok) return { value: Number(read.plain) };
    return { why: `'${shown(text)}' is no number${read.why === "ambiguous" ? ", or could be two" : ""}; write it as 1${mark}5` };
  };

export const asWhole: Reader = (text) => {
  const digits = trimmed(text).replace(/[.,]0+$/, "");
  return /^-?\d{1,12}$/.test(digits) ? { value: Number(digits) } : { why: `'${shown(text)}' is no whole number` };
};

export const asChoice =
  (choices: readonly string[]): Reader =>
  (text) => {
    const wanted = trimmed(text).toLowerCase();
    const found = choices.find((choice) => choice.toLowerCase() === wanted);
    return found === undefined ? { why: `'${shown(text)}' is none of: ${choices.join(", ")}` } : { value: found };
  };

export const asYesNo: Reader = (text) => {
  const wanted = trimmed(text).toLowerCase();
  if (["yes", "true", "1", "x"].includes(wanted)) return { value: true };
  return ["no", "false", "0"].includes(wanted) ? { value: false } : { why: `'${shown(text)}' is neither yes nor no` };
};

export const asDay: Reader = (text) =>
  /^\d{4}-\d\d-\d\d$/.test(trimmed(text))
    ? { value: trimmed(text) }
    : { why: `'${shown(text)}' is no day; write it as 2026-11-25 (ISO 8601)` };

/** As a field is declared. */
export function readerOf({ kind, choices = [], unit, decimals }: Saying): Reader {
  if (kind === "whole") return asWhole;
  if (kind === "decimal") return asNumber(unit === undefined ? undefined : new RegExp(`\\s*${unit}$`, "i"), decimals);
  if (kind === "choice") return asChoice(choices);
  if (kind === "tick") return asYesNo;
  return kind === "day" ? asDay : asText;
}

/** So many digits after the sign are never taken for thousands. */
const DIGITS = 6;

/** Into minor units, once the currency is known. */
export function minorOf(text: string, mark: string, currency: string): CellRead {
  const decimals = decimalsOf(currency);
  if (decimals === undefined) return { why: `'${currency}' is no currency of ISO 4217` };
  const read = readDecimal(trimmed(text), mark, DIGITS);
  if (!read.ok) return { why: `'${shown(text)}' is no amount; write it as 1${mark}50` };
  const minor = shift(read.plain, decimals);
  if (minor.includes("."))
    return { why: `'${shown(text)}' has more digits than ${currency} has (${decimals}); give the price of more pieces` };
  return { value: Number(minor) };
}

export const shown = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}...` : text);
