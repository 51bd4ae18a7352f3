/** The other way than `readForm`: a record's own keys as a form has them, by name of field; it may lack some. An absent key is an absent field. */
import { z } from "zod";
import { amountText, decimalMark, plainOf, shift, typed } from "../wording/decimal.js";
import { key } from "../wording/fieldName.js";
import { bare, type Saying, sayingOf } from "./field.js";

type Tongue = { readonly locale: string; readonly currency: string };

export function writeForm(fields: z.ZodType, value: unknown, tongue: Tongue, under = ""): ReadonlyMap<string, string> {
  const written = new Map<string, string>();
  write(written, fields, value, tongue, under);
  return written;
}

function write(written: Map<string, string>, fields: z.ZodType, value: unknown, tongue: Tongue, under: string): void {
  if (value === undefined) return;
  const saying = sayingOf(fields);
  if (saying) {
    if (saying.kind !== "tick" || value === true) written.set(under, textOf(saying, value, tongue));
    return;
  }
  const inner = bare(fields);
  const each = (step: string, of: unknown, one: unknown, their = tongue) =>
    write(written, of as z.ZodType, one, their, under === "" ? step : `${under}.${step}`);
  if (inner instanceof z.ZodArray)
    for (const [place, row] of (value as unknown[]).entries()) each(String(place), inner.element, row);
  else if (inner instanceof z.ZodRecord)
    for (const [id, one] of Object.entries(value as object)) each(key(id), inner.valueType, one);
  else if (inner instanceof z.ZodObject) {
    const own = currencyOf(value, tongue);
    for (const [name, field] of Object.entries(inner.shape as Record<string, z.ZodType>))
      each(name, field, (value as Record<string, unknown>)[name], sayingOf(field)?.currencyIn === "" ? tongue : own);
  }
}

/** A record that names its own currency. */
const currencyOf = (value: unknown, tongue: Tongue): Tongue => {
  const { currency } = value as { readonly currency?: unknown };
  return typeof currency === "string" ? { ...tongue, currency } : tongue;
};

function textOf({ kind, share }: Saying, value: unknown, { locale, currency }: Tongue): string {
  if (kind === "tick") return "yes";
  if (Array.isArray(value)) return value.join("\n");
  if (kind === "exact") return typed(String(value), decimalMark(locale));
  if (typeof value !== "number") return String(value);
  const plain = kind === "money" ? amountText(value, currency) : share ? shift(plainOf(value), 2) : plainOf(value);
  return typed(plain, decimalMark(locale));
}
