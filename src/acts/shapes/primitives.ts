/** Shapes only: whether a figure makes sense is for the engine to say, by name. */
import { z } from "zod";
import { BOARD_SIZES, FASTENER_KINDS, HAZARDS, MOUNTINGS, POWERS, SCARCITIES } from "../../estimating/lists.js";
import { EMAIL } from "../../wording/email.js";

/** An absent key, never `undefined`: JSON has none, and the engine's types say so. */
export const maybe = <S extends z.ZodType>(schema: S) => schema.optional() as unknown as z.ZodExactOptional<S>;

export const LINE_LENGTH = 500;
export const PROSE_LENGTH = 20_000;

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
const CONTROL = /[\u0000-\u001f\u007f-\u009f\u2028\u2029]/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
const CONTROL_BUT_BREAKS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/;

/** A text in JSON may hold half a character, which no database keeps: it is read as U+FFFD, as it would be read back. */
const text = z.string().overwrite((given) => given.replaceAll(/\p{Surrogate}/gu, "\uFFFD"));

/** One line of text: no line break, no control character. */
export const line = text.max(LINE_LENGTH).refine((text) => !CONTROL.test(text), { params: { name: "line broken" } });
/** A name that must say something. */
export const label = line.min(1);
/** One address of e-mail, or nothing. */
export const address = line
  .refine((text) => text === "" || EMAIL.test(text), { params: { name: "e-mail unreadable" } })
  .meta({ pattern: `${EMAIL.source}|^$`, example: "ines@example.org" });
/** Text of several lines. */
export const prose = text
  .max(PROSE_LENGTH)
  .refine((text) => !CONTROL_BUT_BREAKS.test(text), { params: { name: "control character" } });
/** What other values refer to. */
export const ident = text
  .min(1)
  .max(100)
  .refine((text) => !CONTROL.test(text), { params: { name: "line broken" } });
/** YYYY-MM-DD; whether the day exists is for the engine. */
export const isoDate = z.string().max(40).meta({ format: "date", example: "2026-11-25" });
export const currency = z.string().max(40).meta({ example: "EUR", description: "ISO 4217" });
export const amount = z.number().meta({ description: "Integer minor units of the currency" });
export const minutes = z.number().meta({ description: "Minutes, up to three decimals" });
export const percent = z.number().meta({ description: "Percent, up to four decimals" });

/** Of a record that never changes. */
export const keptOnce = { id: z.string(), jobId: z.string(), at: z.string().meta({ format: "date-time" }) };

export const threePoint = z.strictObject({ low: minutes, likely: minutes, high: minutes }).meta({ id: "ThreePoint" });
export const provenance = z
  .strictObject({
    basis: z.enum(["published", "from memory", "common practice, no source", "measured here", "demo"]),
    note: maybe(line),
  })
  .meta({ id: "Provenance" });
export const power = z.enum(POWERS).meta({ description: "What the unit runs on; absent: nobody said" });
export const hazard = z.enum(HAZARDS).meta({ id: "Hazard" });
export const scarcity = z.enum(SCARCITIES).meta({ id: "Scarcity" });
export const boardSize = z.enum(BOARD_SIZES).meta({ id: "BoardSize" });
export const mounting = z.enum(MOUNTINGS).meta({ id: "Mounting" });
export const fastenerKind = z.enum(FASTENER_KINDS).meta({ id: "FastenerKind" });
export const taxRounding = z
  .strictObject({
    level: z.enum(["line", "group", "document"]),
    mode: z.enum(["half up", "half down", "down"]),
    extraDigits: maybe(z.number()),
  })
  .meta({ id: "TaxRounding" });
