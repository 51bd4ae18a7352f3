/** The other way than `readForm`: a record's own keys as a form has them, by name of field. An absent key is an absent field. */
import { z } from "zod";
import { amountText, decimalMark, plainOf, typed } from "../wording/decimal.js";
import { bare, type Saying, sayingOf } from "./field.js";

type Tongue = { readonly locale: string; readonly currency: string };

export function writeForm(fields: z.ZodType, value: unknown, tongue: Tongue, under = ""): ReadonlyMap<string, string> {
  const saying = sayingOf(fields);
  if (value === undefined) return new Map();
  if (saying) return new Map(saying.kind === "tick" && value !== true ? [] : [[under, textOf(saying, value, tongue)]]);
  const inner = bare(fields);
  if (!(inner instanceof z.ZodObject)) return new Map();
  return new Map(
    Object.entries(inner.shape as Record<string, z.ZodType>).flatMap(([key, each]) => [
      ...writeForm(
        each,
        (value as Record<string, unknown>)[key],
        currencyOf(value, tongue),
        under === "" ? key : `${under}.${key}`,
      ),
    ]),
  );
}

/** A record that names its own currency. */
const currencyOf = (value: unknown, tongue: Tongue): Tongue => {
  const { currency } = value as { readonly currency?: unknown };
  return typeof currency === "string" ? { ...tongue, currency } : tongue;
};

function textOf({ kind }: Saying, value: unknown, { locale, currency }: Tongue): string {
  if (kind === "tick") return "yes";
  if (Array.isArray(value)) return value.join("\n");
  if (typeof value !== "number") return String(value);
  const plain = kind === "money" ? amountText(value, currency) : plainOf(value);
  return typed(plain, decimalMark(locale));
}
