/**
 * The kinds of field an act is made of: zod schemas that read JSON, with what is said of them to a person in a registry beside them,
 * so that none of it stands in OpenAPI. What a form or a CSV cell holds as text is read by `readForm.ts` from the same declaration.
 */
import { z } from "zod";
import { COST_IS, type Saying } from "../wording/saying.js";
import { address, label, line as lineOf, maybe, PROSE_LENGTH, prose } from "./shapes/primitives.js";

export type { Saying };
export { maybe };

export const said = z.registry<Saying>();

/** A registry makes a copy of what it keeps, each time it is asked. */
const kept = new WeakMap<z.ZodType, Saying>();

/** What is said of a field, however it is wrapped. */
export function sayingOf(schema: z.ZodType): Saying | undefined {
  const before = kept.get(schema);
  if (before) return before;
  for (let at: z.ZodType | undefined = schema; at; at = innerOf(at)) {
    const found = said.get(at);
    if (!found) continue;
    kept.set(schema, found);
    return found;
  }
  return undefined;
}

/** What stands inside optional, default and nullable. */
const innerOf = (schema: z.ZodType): z.ZodType | undefined => (schema.def as { readonly innerType?: z.ZodType }).innerType;

/** Every field of an act by its name in a form; entries of a list are `lines.*.packs`, of a record by id `packs.*`. */
export function saysOf(fields: z.ZodType, under = "", optional = false): ReadonlyMap<string, Saying> {
  const saying = sayingOf(fields);
  if (saying) return new Map([[under, optional ? { ...saying, optional } : saying]]);
  const inner = bare(fields);
  if (inner instanceof z.ZodArray) return saysOf(inner.element as z.ZodType, `${under}.*`);
  if (inner instanceof z.ZodRecord) return saysOf(inner.valueType as z.ZodType, `${under}.*`);
  if (!(inner instanceof z.ZodObject)) return new Map();
  return new Map(
    Object.entries(inner.shape as Record<string, z.ZodType>).flatMap(([key, each]) => [
      ...saysOf(each, under === "" ? key : `${under}.${key}`, each.safeParse(undefined).success),
    ]),
  );
}

export const bare = (schema: z.ZodType): z.ZodType => {
  const inner = innerOf(schema);
  return inner ? bare(inner) : schema;
};

/** The schema of a key of an object, or of an entry of a list or a record. */
export function within(schema: z.ZodType, step: string): z.ZodType | undefined {
  const at = bare(schema);
  if (at instanceof z.ZodObject) return Object.hasOwn(at.shape, step) ? (at.shape[step] as z.ZodType) : undefined;
  if (at instanceof z.ZodRecord) return at.valueType as z.ZodType;
  return at instanceof z.ZodArray ? (at.element as z.ZodType) : undefined;
}

type Beside = Pick<Saying, "hint" | "unit" | "help">;

/** A schema of any shape, called by what is told of it. */
export function saying<S extends z.ZodType>(schema: S, told: Saying): S {
  // A schema of its own: the same shape may be called otherwise elsewhere.
  const own = schema.meta({ ...schema.meta() }) as S;
  said.add(own, told);
  return own;
}

/** Of a schema that was made for this field alone: to make one takes a Worker's start some microseconds, hundreds of times. */
function told<S extends z.ZodType>(own: S, saying: Saying): S {
  said.add(own, saying);
  return own;
}

/** One line that must say something. */
export const line = (
  label_: string,
  { most = 500, capitals = false, ...beside }: Beside & { readonly most?: number; readonly capitals?: boolean } = {},
) => told(capitals ? label.max(most).toUpperCase() : label.max(most), { label: label_, kind: "line", ...beside });
/** One address of e-mail. */
export const email = (label: string, beside: Beside = {}) => saying(address.min(1), { label, kind: "line", ...beside });
/** Whose hand it was: who is signed in where nobody is named (`handOf`). */
export const hand = (
  label_: string,
  { description = "Who is signed in, when absent", ...beside }: Beside & { readonly description?: string } = {},
) => maybe(told(label.max(200).meta({ description }), { label: label_, kind: "line", hand: true, ...beside }));
/** As typed, never trimmed and never shown again. */
export const secret = (label: string, { most = 500, ...beside }: Beside & { readonly most?: number } = {}) =>
  told(z.string().check(z.minLength(1), z.maxLength(most)), { label, kind: "secret", ...beside });
/** Text of several lines. */
export const note = (label: string, { most = PROSE_LENGTH, ...beside }: Beside & { readonly most?: number } = {}) =>
  told(prose.min(1).max(most), { label, kind: "note", ...beside });
/** One entry a line. */
export const lines = (label: string, { most = 20, ...beside }: Beside & { readonly most?: number } = {}) =>
  told(z.array(lineOf.min(1)).max(most), { label, kind: "lines", ...beside });
/** `text` stands in a sentence of the schema; the figure is whole. */
export const whole = (label: string, { least, most, ...beside }: Beside & { readonly least: number; readonly most: number }) =>
  told(z.int().check(z.gte(least), z.lte(most)), { label, kind: "whole", ...beside });
export const decimal = (
  label: string,
  {
    least = Number.NEGATIVE_INFINITY,
    most = Number.POSITIVE_INFINITY,
    decimals,
    ...beside
  }: Beside & { readonly least?: number; readonly most?: number; readonly decimals: number },
) => {
  const above = least === Number.NEGATIVE_INFINITY ? z.number() : z.number().min(least);
  return told(most === Number.POSITIVE_INFINITY ? above : above.max(most), { label, kind: "decimal", decimals, ...beside });
};
/** From 0 to 1 in JSON and in tables; percent where a person reads and types it. */
export const share = (label: string, beside: Beside = {}) =>
  told(z.number().check(z.gte(0), z.lte(1)), { label, kind: "decimal", decimals: 4, share: true, unit: "%", ...beside });
/** A decimal that no number holds exactly: a text in JSON, such as "0.0052". */
export const exact = (label: string, beside: Beside = {}) =>
  told(z.string().check(z.minLength(1), z.maxLength(40)), { label, kind: "exact", decimals: 12, ...beside });
/** A count whose sense the engine tells: no fraction, not below what is done, not above what is agreed. */
export const count = (label: string, beside: Beside = {}) => told(z.number(), { label, kind: "whole", ...beside });
/** ISO 8601 with a zone; whether it is one is told by the engine. */
export const moment = (label: string, beside: Beside = {}) =>
  told(z.string().max(40).meta({ description: "ISO 8601 with a zone", example: "2026-11-25T09:30+00:00" }), {
    label,
    kind: "line",
    ...beside,
  });

const MOST_MONEY = 1_000_000_000_000;
/** Integer minor units, never below 0. */
export const money = (label: string, { currencyIn, ...beside }: Beside & { readonly currencyIn?: string } = {}) =>
  told(z.int().check(z.gte(0), z.lte(MOST_MONEY)).meta({ description: "Integer minor units of the currency" }), {
    label,
    kind: "money",
    ...beside,
    ...(currencyIn !== undefined && { currencyIn }),
  });
/** What the shop pays: where it gets the tax on it back, that is no cost; the margin of a job takes it off what is billed without tax. */
export const cost = (label: string, { hint, ...beside }: Beside & { readonly currencyIn?: string } = {}) =>
  money(label, { ...beside, hint: hint ? `${hint.replace(/\.$/, "")}. ${COST_IS}` : COST_IS });
/** ISO 8601, a day that exists. */
export const day = (label: string, beside: Beside = {}) => told(z.iso.date(), { label, kind: "day", ...beside });
export const tick = (label: string, beside: Beside = {}) => told(z.boolean(), { label, kind: "tick", ...beside });
export const choice = <const C extends readonly [string, ...string[]]>(label: string, choices: C, beside: Beside = {}) =>
  told(z.enum(choices), { label, kind: "choice", choices, ...beside });
/** Ticks of one name: which of several. */
export const several = (label: string, { most = 500, ...beside }: Beside & { readonly most?: number } = {}) =>
  told(z.array(z.string().min(1).max(100)).max(most), { label, kind: "several", ...beside });
/** Ticks of one name: at least one of these. */
export const someOf = <const C extends readonly [string, ...string[]]>(label: string, choices: C, beside: Beside = {}) =>
  told(z.array(z.enum(choices)).min(1).max(choices.length), { label, kind: "several", choices, ...beside });
/** An id, or the name of what it is the id of where that names one thing. */
export const named = (label: string, beside: Beside = {}) => line(label, { most: 500, ...beside });
