/**
 * The next version of a rate book from a day on: any part of it changed, and beside it what that does to open drafts and to the jobs last
 * issued. Pages, programs and tables open onto this act; a version never changes, and what is issued keeps its own.
 */
import { z } from "zod";
import { same } from "../estimating/agreement/canonical.js";
import type { IsoDate, RateBook } from "../estimating/input.js";
import { type KeptRateBook, rateBooks } from "../records/rateBooks.js";
import type { Figures } from "../wording/figures.js";
import { act, type Desk, refused, wrongField } from "./act.js";
import { type Effect, effectOf, effectShape, movedTo } from "./effect.js";
import { type Fault, shapeFaults } from "./fault.js";
import { rateBook, wrongInBook } from "./rateBook.js";
import { changeFields, type RateBookChange, ROWS } from "./rateBookFields.js";
import { heldBack, type OnRecord } from "./record.js";
import { slug } from "./tableRows.js";

export interface RateBookChanged {
  readonly record: KeptRateBook;
  /** What the change stands on. */
  readonly before: RateBook;
  readonly effect: Effect;
  readonly written: boolean;
}

export const changeRateBook = act({
  name: "changeRateBook",
  title: "Change a rate book from a day on, or see what that would do",
  fields: changeFields,
  answer: z
    .strictObject({ record: rateBook.kept, effect: effectShape, written: z.boolean() })
    .meta({ id: "RateBookChanged", description: "The next version, and what it does" }),
  decide: async ({ db, at, now }: Desk, { carryOut = false, drafts = [], ...change }, { id, seen }: OnRecord) => {
    const old = await rateBooks.find(db, id);
    const held = heldBack("rate book", old, seen);
    if (held) return { refused: held };
    const before = old!.book;
    const { id: _, version: __, ...value } = withChange(before, change);
    const read = rateBook.fields.safeParse(value);
    const faults = read.success ? await wrongInBook(db, value, before) : bookFaults(read.error.issues, value);
    if (faults.length > 0)
      return refused("input refused", {
        errors: faults.map((fault): Fault => ({ ...fault, pointer: sentAt(fault.pointer, value, change) })),
      });
    const { id: ___, version: ____, ...was } = before;
    if (same({ ...value, inForceFrom: was.inForceFrom }, was)) return wrongField("", "nothing changed", UNCHANGED);
    const { record, write } = rateBooks.changed(db, old!, value, at);
    const effect = await effectOf(db, before, record.book);
    const answer: RateBookChanged = { record, before, effect, written: carryOut };
    if (!carryOut) return { answer };
    const moved = await movedTo(db, record.book, drafts, at, now);
    return "refused" in moved ? moved : { answer, writes: [write, ...moved.writes] };
  },
});

const UNCHANGED = "Nothing is changed: every figure is as it stands; change one first.";

type Row = Readonly<Record<string, unknown>>;
type Change = Omit<RateBookChange, "carryOut">;

const isObject = (value: unknown): value is Row => typeof value === "object" && value !== null && !Array.isArray(value);
/** What tells a row from the others of its list. */
const keyOf = ({ id, kind, size, mounting }: Row): string | undefined =>
  size === undefined ? ((id ?? kind) as string | undefined) : `${size}, ${mounting}`;

/** The book with the change in it; what is wrong with it is told later. */
export function withChange(book: RateBook, change: Change): RateBook {
  const next = merged(book as unknown as Row, change, change.inForceFrom) as unknown as RateBook;
  return { ...next, parts: { ...next.parts, markUp: [...next.parts.markUp].sort(byReach) } };
}

const byReach = (a: { upTo?: number }, b: { upTo?: number }) =>
  (a.upTo ?? Number.POSITIVE_INFINITY) < (b.upTo ?? Number.POSITIVE_INFINITY) ? -1 : a.upTo === b.upTo ? 0 : 1;

function merged(old: Row, change: Row, day: IsoDate): Row {
  const next: Record<string, unknown> = { ...old };
  for (const [key, value] of Object.entries(change)) {
    const was = old[key];
    // A no that is taken away is still a no.
    if (value === null && was === false) continue;
    if (value === null) delete next[key];
    else if (Array.isArray(value) && Object.hasOwn(ROWS, key)) next[key] = rows((was ?? []) as Row[], value as Row[], key, day);
    else if (Array.isArray(value) && value.length === 0) delete next[key];
    else if (Array.isArray(value) && isObject(value[0])) {
      // Taken whole: its rows have nothing to be known by.
      next[key] = (value as Row[]).map((row) => merged({}, row, day)).filter((row) => Object.keys(row).length > 0);
    } else if (isObject(value)) {
      const inner = merged(isObject(was) ? was : {}, value, day);
      if (Object.keys(inner).length === 0) delete next[key];
      else next[key] = inner;
    } else next[key] = value;
  }
  return next;
}

/** An empty row is nothing; one with an id alone, where the list has nothing that can be retired, is taken away. */
function rows(old: readonly Row[], sent: readonly Row[], list: string, day: IsoDate): Row[] {
  const said = sent.filter((row) => Object.entries(row).some(([key, value]) => key === "id" || value !== null));
  if (list === "markUp") return said.map((row) => merged({}, row, day));
  const taken = new Set(old.flatMap((row) => keyOf(row) ?? []));
  const changes = new Map(said.flatMap((row) => (keyOf(row) === undefined ? [] : [[keyOf(row)!, row] as const])));
  const told = (was: Row, next: Row, row: Row) => (list === "categories" ? next : sourced(was, next, row, day));
  const gone = (row: Row) => list === "categories" && row.name === null && row.percent === null;
  const kept = old.flatMap((row) => {
    const change = changes.get(keyOf(row)!);
    return change === undefined ? [row] : gone(change) ? [] : [told(row, merged(row, change, day), change)];
  });
  const added = said.flatMap((row) => {
    const stated = keyOf(row);
    if (stated !== undefined && taken.has(stated)) return [];
    const id = stated ?? freeId(slug(String(row.name ?? "")), taken);
    taken.add(id);
    const fresh = merged({}, row, day);
    return [told({}, row.kind || row.size ? fresh : { id, ...fresh }, row)];
  });
  return [...kept, ...added];
}

function freeId(wanted: string, taken: ReadonlySet<string>): string {
  for (let at = 1; ; at += 1) {
    const id = at === 1 ? wanted : `${wanted}-${at}`;
    if (!taken.has(id)) return id;
  }
}

/** Figures of the shop's own no longer rest on what was there before. */
function sourced(old: Row, next: Row, change: Row, day: IsoDate): Row {
  const told = change.source !== undefined && !same(old.source ?? null, next.source ?? null);
  const figures = ({ name: _, source: __, retiredOn: ___, hazards: ____, ...rest }: Row) => rest;
  if (told || (old.source !== undefined && same(figures(old), figures(next)))) return next;
  return { ...next, source: { basis: "from memory", note: `the shop's own, from ${day}` } };
}

/** A row of the book that a pointer leads to or into, its list, and what of the pointer is left. */
function rowAt(pointer: string, book: object) {
  const steps = pointer.split("/").slice(1);
  const place = steps.findIndex((step, at) => at > 0 && Object.hasOwn(ROWS, steps[at - 1]!) && /^\d+$/.test(step));
  if (place < 0) return undefined;
  const list = steps.slice(0, place);
  const row = within(book, [...list, steps[place]!]) as Row;
  return { list, of: list.at(-1)!, row, rest: steps.slice(place + 1) };
}

const within = (value: unknown, steps: readonly string[]): unknown =>
  steps.reduce<unknown>((at, step) => (at as Row | undefined)?.[step], value);

/** "Part type 'Electrolytic', " */
function placed(pointer: string, book: object): string {
  const { of, row } = rowAt(pointer, book) ?? {};
  const name = row && (row.name ?? keyOf(row));
  return of === undefined ? "" : name ? `${ROWS[of]} '${name}', ` : `${ROWS[of]}, `;
}

/** What is wrong with the shape of a book, or of a change, in words: the row, then the label of the field. `figures`: of a person who reads amounts as money. */
export const bookFaults = (issues: Parameters<typeof shapeFaults>[0], value: object, figures?: Figures): Fault[] =>
  shapeFaults(issues, value, changeFields, figures && (() => figures)).map((fault) => {
    const key = fault.name === "key unknown" && fault.pointer.split("/").at(-1);
    const detail = key ? `'${key}' is no field of it; leave it out, or check its spelling.` : fault.detail;
    return { ...fault, detail: placed(fault.pointer, value) + detail };
  });

/** Where it stands in what was sent, whose rows are fewer; "" where it was not sent at all. */
function sentAt(pointer: string, book: object, change: Change): string {
  const found = rowAt(pointer, book);
  if (!found) return pointer;
  const { list, of, row, rest } = found;
  const sent = (within(change, list) ?? []) as Row[];
  const place = sent.findIndex((each) => {
    if (of === "markUp") return same([each.upTo ?? null, each.percent ?? null], [row.upTo ?? null, row.percent ?? null]);
    return keyOf(each) === undefined ? (each.name ?? undefined) === row.name : keyOf(each) === keyOf(row);
  });
  return place < 0 ? "" : [...["", ...list], place, ...rest].join("/");
}
