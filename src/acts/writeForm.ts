/** The other way than `readForm`: a record's own keys as a form has them, by name of field; it may lack some. An absent key is an absent field. */
import { z } from "zod";
import { amountText, decimalMark, plainOf, shift, typed } from "../wording/decimal.js";
import { key } from "../wording/fieldName.js";
import { bare, type Saying, sayingOf } from "./field.js";

type Tongue = { readonly locale: string; readonly currency: string };

export function writeForm(fields: z.ZodType, value: unknown, tongue: Tongue, under = ""): ReadonlyMap<string, string> {
  const saying = sayingOf(fields);
  if (value === undefined) return new Map();
  if (saying) return new Map(saying.kind === "tick" && value !== true ? [] : [[under, textOf(saying, value, tongue)]]);
  const inner = bare(fields);
  const at = (step: string) => (under === "" ? step : `${under}.${step}`);
  const each = (step: string, of: unknown, one: unknown) => [...writeForm(of as z.ZodType, one, tongue, at(step))];
  if (inner instanceof z.ZodArray)
    return new Map((value as unknown[]).flatMap((row, place) => each(String(place), inner.element, row)));
  if (inner instanceof z.ZodRecord)
    return new Map(Object.entries(value as object).flatMap(([id, one]) => each(key(id), inner.valueType, one)));
  if (!(inner instanceof z.ZodObject)) return new Map();
  return new Map(
    Object.entries(inner.shape as Record<string, z.ZodType>).flatMap(([name, field]) => [
      ...writeForm(
        field,
        (value as Record<string, unknown>)[name],
        sayingOf(field)?.currencyIn === "" ? tongue : currencyOf(value, tongue),
        at(name),
      ),
    ]),
  );
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
