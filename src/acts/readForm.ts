/**
 * The one reader of forms: what was typed, as the act's own fields read it. Nested fields are `tested.good`, rows `lines.0.packs`,
 * figures by id `done.w01`.
 * An empty field is an absent key. What is wrong is said per field in the sentence that a program gets too.
 */
import { z } from "zod";
import { decimalsOf } from "../estimating/money/currency.js";
import { decimalMark, readFigure, shift, withoutCurrency } from "../wording/decimal.js";
import { idOf, key } from "../wording/fieldName.js";
import { type Fault, shapeFaults } from "./fault.js";
import { bare, type Saying, sayingOf, saysOf, within } from "./field.js";

/** A form as it was sent. */
export interface Typed {
  readonly get: (name: string) => string | undefined;
  readonly all: (name: string) => readonly string[];
  readonly names: readonly string[];
}

export const typedFrom = (pairs: URLSearchParams): Typed => ({
  get: (name) => pairs.getAll(name).at(-1),
  all: (name) => [...new Set(pairs.getAll(name))],
  names: [...new Set(pairs.keys())],
});

/** The same form with some fields otherwise, or left out. */
export const typedWith = (typed: Typed, changed: Readonly<Record<string, string | readonly string[] | undefined>>): Typed => {
  const rest = typed.names.filter((name) => !Object.hasOwn(changed, name));
  const set = Object.keys(changed).filter((name) => changed[name] !== undefined);
  return {
    get: (name) => (Object.hasOwn(changed, name) ? [changed[name]].flat().at(-1) : typed.get(name)),
    all: (name) => (Object.hasOwn(changed, name) ? [changed[name] ?? []].flat() : typed.all(name)),
    names: [...rest, ...set],
  };
};

/** Whose figures these are; the currency is of amounts that name no other. */
export interface Tongue {
  /** Who is signed in. */
  readonly hand?: string | undefined;
  /** BCP 47. */
  readonly locale: string;
  readonly currency: string;
  /** The shop's own currency, where `currency` is another. */
  readonly shop?: string;
  /** Of a table, whose decimal sign is known and whose texts keep the space around them; absent: a person's, as the locale has it. */
  readonly mark?: "." | ",";
}

/** Name of a list -> the numbers its rows had in the form: rows that hold nothing are left out. */
export type RowsTyped = ReadonlyMap<string, readonly number[]>;

export type FormRead<V> =
  | { readonly ok: true; readonly value: V; readonly rows: RowsTyped }
  /** Field -> sentence; `read`: what could be read. */
  | { readonly ok: false; readonly errors: ReadonlyMap<string, string>; readonly read: Readonly<Record<string, unknown>> };

export function readForm<F extends z.ZodType>(fields: F, typed: Typed, tongue: Tongue): FormRead<z.output<F>> {
  const wrong = new Map<string, string>();
  const rows = new Map<string, readonly number[]>();
  const value = readObject(fields, "", { typed, tongue, wrong, rows }) ?? {};
  const read = fields.safeParse(value);
  if (read.success && wrong.size === 0) return { ok: true, value: read.data, rows };
  const faults = read.success
    ? []
    : shapeFaults(read.error.issues, value, fields, (saying) => ({
        locale: tongue.locale,
        currency: currencyOf(saying, typed, tongue),
      }));
  return { ok: false, errors: new Map([...fieldErrors(faults, fields, rows), ...wrong]), read: value };
}

/** What is wrong by the field it stands in; the first of each. Where a field is no field of the form: "". */
export function fieldErrors(faults: readonly Fault[], fields: z.ZodType, rows: RowsTyped = new Map()): Map<string, string> {
  const errors = new Map<string, string>();
  const says = saysOf(fields);
  for (const { pointer, name, detail } of faults) {
    const field = fieldAt(pointer, fields, rows);
    const saying = says.get(field);
    // Their own names are a program's; whoever chooses has the list before them.
    const text = name === "key missing" && saying?.kind === "choice" ? `${saying.label} is missing; choose one.` : detail;
    if (!errors.has(field)) errors.set(field, text);
  }
  return errors;
}

function fieldAt(pointer: string, fields: z.ZodType, rows: RowsTyped): string {
  const steps = pointer.split("/").slice(1);
  const taken: string[] = [];
  let at: z.ZodType | undefined = fields;
  for (const step of steps) {
    const named =
      at && bare(at) instanceof z.ZodRecord ? key(unescaped(step)) : String(rows.get(taken.join("."))?.[Number(step)] ?? step);
    at = at && within(at, step);
    taken.push(named);
    // A list of lines, or of ticks, is one field.
    if (at && sayingOf(at)) return taken.join(".");
  }
  return taken.join(".");
}

/** RFC 6901, 3. */
const unescaped = (step: string): string => step.replaceAll("~1", "/").replaceAll("~0", "~");

interface Reading {
  readonly typed: Typed;
  readonly tongue: Tongue;
  readonly wrong: Map<string, string>;
  readonly rows: Map<string, readonly number[]>;
}

function readObject(schema: z.ZodType, under: string, reading: Reading): Record<string, unknown> | undefined {
  const object = bare(schema);
  if (!(object instanceof z.ZodObject)) return undefined;
  const entries = Object.entries(object.shape).flatMap(([key, inner]) => {
    const read = readField(inner as z.ZodType, under === "" ? key : `${under}.${key}`, reading);
    return read === undefined ? [] : [[key, read] as const];
  });
  return entries.length === 0 ? undefined : Object.fromEntries(entries);
}

function readField(schema: z.ZodType, name: string, reading: Reading): unknown {
  const saying = sayingOf(schema);
  if (saying) return readText(saying, name, reading);
  const inner = bare(schema);
  if (inner instanceof z.ZodRecord) return readRecord(inner.valueType as z.ZodType, name, reading);
  if (inner instanceof z.ZodArray) return readRows(inner.element as z.ZodType, name, reading);
  return readObject(inner, name, reading);
}

/** Where boxes stand and nothing is in them it is empty, and not absent. */
function readRecord(each: z.ZodType, name: string, reading: Reading): Record<string, unknown> | undefined {
  const names = reading.typed.names.filter((field) => field.startsWith(`${name}.`));
  if (names.length === 0) return undefined;
  const entries = names.map((field) => [idOf(field.slice(name.length + 1)), readField(each, field, reading)] as const);
  return Object.fromEntries(entries.filter(([, read]) => read !== undefined));
}

/** Rows keep their order; one that holds nothing is left out, and a choice alone is nothing: its list has always something chosen. */
function readRows(row: z.ZodType, name: string, reading: Reading): unknown[] | undefined {
  const numbers = new Set<number>();
  for (const each of reading.typed.names) {
    const number = each.startsWith(`${name}.`) ? /^(\d{1,4})\./.exec(each.slice(name.length + 1))?.[1] : undefined;
    if (number !== undefined) numbers.add(Number(number));
  }
  const rows = [...numbers]
    .sort((a, b) => a - b)
    .flatMap((at) => {
      const read = readField(row, `${name}.${at}`, reading);
      return read === undefined || isChosen(row, read) ? [] : [{ at, read }];
    });
  reading.rows.set(
    name,
    rows.map(({ at }) => at),
  );
  return rows.length > 0 ? rows.map(({ read }) => read) : undefined;
}

const isChosen = (row: z.ZodType, read: unknown): boolean =>
  typeof read === "object" && Object.keys(read!).every((key) => sayingOf(within(row, key)!)?.kind === "choice");

function readText(saying: Saying, name: string, { typed, tongue, wrong }: Reading): unknown {
  const sent = typed.get(name);
  if (saying.empties && saying.kind !== "several" && sent?.trim() === "") return null;
  switch (saying.kind) {
    case "secret":
      return sent || undefined;
    case "tick":
      return sent === undefined ? undefined : yesOrNo(saying, name, sent, wrong);
    case "several":
      return typed.all(name).length > 0 ? typed.all(name).filter((each) => each !== "" || !saying.empties) : undefined;
    case "lines": {
      const entries = (sent ?? "").split(/\r?\n/).flatMap((entry) => entry.trim() || []);
      return entries.length > 0 ? entries : undefined;
    }
    case "note":
    case "line": {
      const text =
        asTyped((sent ?? "").replace(/\r\n?/g, "\n"), tongue.mark !== undefined) ?? (saying.hand ? tongue.hand : undefined);
      if (saying.hand && text === undefined) wrong.set(name, `${saying.label} is missing; type the name.`);
      return text;
    }
    case "choice": {
      const wanted = sent?.trim() ?? "";
      return saying.choices?.find((choice) => choice.toLowerCase() === wanted.toLowerCase()) ?? (wanted || undefined);
    }
    case "whole":
    case "decimal":
    case "exact":
    case "money": {
      const currency = currencyOf(saying, typed, tongue);
      const read = figureIn(saying, sent ?? "", { ...tongue, currency });
      if (!read) return undefined;
      if ("wrong" in read) wrong.set(name, `${saying.label}: ${read.wrong}`);
      return "wrong" in read ? undefined : saying.kind === "exact" ? read.plain : Number(read.plain);
    }
    default:
      return sent?.trim() || undefined;
  }
}

function currencyOf({ currencyIn }: Saying, typed: Typed, { currency, shop }: Tongue): string {
  const own = currencyIn === "" ? (shop ?? currency) : currency;
  return (currencyIn && typed.get(currencyIn)?.trim()) || own;
}

const asTyped = (text: string, verbatim = false): string | undefined =>
  text.trim() === "" ? undefined : verbatim ? text : text.trim();

const [YES, NO] = [new Set(["yes", "true", "1", "x", "on"]), new Set(["no", "false", "0", ""])];

function yesOrNo({ label }: Saying, name: string, sent: string, wrong: Map<string, string>): boolean | undefined {
  const word = sent.trim().toLowerCase();
  if (!YES.has(word) && !NO.has(word)) wrong.set(name, `${label}: '${shownText(sent)}' is neither yes nor no.`);
  return YES.has(word);
}

const shownText = (text: string): string => (text.trim().length > 60 ? `${text.trim().slice(0, 60)}…` : text.trim());

/** So many digits after the sign are never taken for thousands. */
const TABLE_DIGITS = 6;

/** The figure as a plain decimal, of money in minor units; undefined where nothing is typed; what is wrong with the text. */
function figureIn(saying: Saying, text: string, { locale, currency, mark: known }: Tongue): ReturnType<typeof readFigure> {
  const isMoney = saying.kind === "money";
  // A table has it as JSON has.
  const isPercent = saying.share === true && known === undefined;
  const most = saying.kind === "decimal" || saying.kind === "exact" ? (saying.decimals ?? 3) : 0;
  const decimals = isMoney ? (decimalsOf(currency) ?? 2) : isPercent ? most - 2 : most;
  const read = readFigure(isMoney ? withoutCurrency(text, { locale, currency }) : withoutUnit(text, saying.unit ?? "%"), {
    ...{ mark: known ?? decimalMark(locale), decimals },
    ...(isMoney && { currency }),
    // What a person groups by thousands a table does not.
    ...(known && { digits: TABLE_DIGITS }),
  });
  return read && "plain" in read && (isMoney || isPercent) ? { plain: shift(read.plain, isMoney ? decimals : -2) } : read;
}

/** '20 %', '63 V', '63 VDC'. */
const withoutUnit = (text: string, unit: string): string => text.trim().replace(new RegExp(`\\s*${unit}(?:DC)?$`, "i"), "");
