/**
 * Rows of a table as records of a noun, read by the noun's own fields. A row with the id of a record changes what its columns say and
 * leaves the rest; a row that says what is on record changes nothing, so a file that comes twice adds nothing.
 */
import type { z } from "zod";
import type { Kept } from "../records/columns.js";
import type { Mapping } from "../records/mappings.js";
import { type Fault, shapeFaults } from "./fault.js";
import { saysOf } from "./field.js";
import { fieldErrors, readForm, type Typed } from "./readForm.js";
import { valueIn } from "./record.js";

export interface Table {
  readonly delimiter: "," | ";" | "\t";
  readonly headings: readonly string[];
  readonly rows: readonly TableRow[];
}
export interface TableRow {
  /** As a spreadsheet numbers it: the headings are row 1. */
  readonly number: number;
  readonly cell: (heading: string) => string;
}

export interface CellFault {
  /** Heading of the column; absent: the row as a whole. */
  readonly column?: string;
  /** A sentence. */
  readonly why: string;
}

export interface RowReport {
  readonly row: number;
  readonly is: "new" | "changed" | "same" | "counted" | "left out" | "wrong";
  /** What it is about, as a person knows it. */
  readonly name: string;
  readonly faults: readonly CellFault[];
}

/** What is read from a table: fields, and headings they are known by beside their names and labels. */
export interface Columns {
  readonly fields: z.ZodObject;
  readonly headings: Readonly<Record<string, readonly string[]>>;
  /** Fields that a row need not have, for what is usual. */
  readonly usual?: object;
}

export interface ColumnTold {
  readonly name: string;
  readonly label: string;
  readonly needed: boolean;
}

export const columnsTold = ({ fields, usual = {} }: Columns): readonly ColumnTold[] =>
  [...saysOf(fields)].map(([name, { label, unit, optional }]) => ({
    ...{ name, label: unit ? `${label} (${unit})` : label, needed: !optional && !(name in usual) },
  }));

const plain = (heading: string): string => heading.toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, "");

/** Which column is which field: as chosen now, as remembered for these headings, or by the names of the columns. */
export function mapColumns(
  columns: Columns,
  { headings, delimiter }: Pick<Table, "headings" | "delimiter">,
  known: Mapping | undefined,
  chosen: Partial<Mapping>,
  localeMark: "." | ",",
): Mapping {
  const own = chosen.fields ?? known?.fields;
  const byName = () =>
    columnsTold(columns).flatMap(({ name, label }) => {
      const names = new Set([name, label, ...(columns.headings[name] ?? [])].map(plain));
      const found = headings.find((heading) => heading !== "" && names.has(plain(heading)));
      return found === undefined ? [] : [[name, found] as const];
    });
  const mapped = own ? Object.entries(own).filter(([, heading]) => headings.includes(heading)) : byName();
  // Where cells are divided by commas, a decimal comma would divide them too.
  const usual = delimiter === "," ? "." : localeMark;
  return {
    fields: Object.fromEntries(mapped),
    types: { ...known?.types, ...chosen.types },
    mark: chosen.mark ?? known?.mark ?? usual,
  };
}

export const cellOf = (row: TableRow, { fields }: Mapping, name: string): string =>
  fields[name] === undefined ? "" : row.cell(fields[name]);

/** What is needed is asked of the whole record, not of the row. Made once for all rows. */
function loose(fields: z.ZodObject): z.ZodObject {
  const made = LOOSE.get(fields) ?? fields.partial();
  LOOSE.set(fields, made);
  return made;
}
const LOOSE = new WeakMap<z.ZodObject, z.ZodObject>();

/** What the cells of a row say, empty ones left out. */
export function readRow(
  row: TableRow,
  fields: z.ZodObject,
  mapping: Mapping,
  currency: string,
  shop = currency,
): { readonly cells: Readonly<Record<string, unknown>>; readonly faults: readonly CellFault[] } {
  const typed: Typed = {
    get: (name) => (cellOf(row, mapping, name).trim() === "" ? undefined : cellOf(row, mapping, name)),
    all: () => [],
    names: Object.keys(mapping.fields),
  };
  const read = readForm(loose(fields), typed, { locale: "en", currency, shop, mark: mapping.mark });
  if (read.ok) return { cells: read.value, faults: [] };
  const sound = Object.entries(read.read).filter(([name]) => !read.errors.has(name));
  return { cells: Object.fromEntries(sound), faults: [...read.errors].map(([name, why]) => under(mapping, name, why)) };
}

/** A fault of a field, under the heading of its column. */
export const under = ({ fields }: Mapping, name: string, why: string): CellFault => ({
  ...(fields[name] !== undefined && { column: fields[name] }),
  why,
});

export interface RowsRead {
  readonly rows: readonly RowReport[];
  /** Nothing where a row is wrong: all of it or nothing. */
  readonly changes: readonly Change[];
}
export interface Change {
  readonly id: string;
  readonly value: object;
  /** What it takes the place of. */
  readonly old?: Pick<Kept, "id">;
}

/** How rows become records of one noun. */
export interface RowsOf<Row extends Pick<Kept, "id">> extends Columns {
  /** The noun's, without the id. */
  readonly noun: { readonly fields: z.ZodObject };
  /** Of amounts in rows that name none. */
  readonly currency: string;
  /** On record, by id. */
  readonly kept: ReadonlyMap<string, Row>;
  /** Ids of what was withdrawn. */
  readonly withdrawn: ReadonlySet<string>;
  /** The id of a row that states none; undefined: a new one. */
  readonly idOf: (cells: Readonly<Record<string, unknown>>) => string | undefined;
  readonly newId: () => string;
  /** A record that says all a row without an id does. */
  readonly like?: (value: object) => Row | undefined;
  /** Names in place of ids, put right. */
  readonly settled: (value: object) => object;
  /** What a new record carries beside its fields. */
  readonly beside?: object;
  readonly check: (value: object) => readonly Fault[];
  readonly nameOf: (value: Readonly<Record<string, unknown>>) => string;
  /** A row says all of its columns: an empty cell is emptied, not left as it was. */
  readonly whole?: boolean;
}

export function readRows<Row extends Pick<Kept, "id">>(
  { rows }: Pick<Table, "rows">,
  mapping: Mapping,
  of: RowsOf<Row>,
): RowsRead {
  const seen = new Map<string, number>();
  const reports: RowReport[] = [];
  const changes: Change[] = [];
  for (const row of rows) {
    const stated = cellOf(row, mapping, "id").trim() || undefined;
    const standing = stated === undefined ? undefined : of.kept.get(stated);
    const currency = (standing as { readonly currency?: string } | undefined)?.currency ?? of.currency;
    const { cells, faults: unread } = readRow(row, of.fields, mapping, currency, of.currency);
    const faults: CellFault[] = [...unread];
    const id = stated ?? of.idOf(cells);
    const old = standing ?? (id === undefined ? undefined : of.kept.get(id));
    const twice = id === undefined ? undefined : seen.get(id);
    if (twice !== undefined) faults.push(under(mapping, "id", `Id: '${id}' stands in row ${twice} too.`));
    if (id !== undefined) seen.set(id, row.number);
    if (id !== undefined && of.withdrawn.has(id)) faults.push(under(mapping, "id", `Id: '${id}' was withdrawn; give another.`));
    const { id: _, ...said } = cells;
    const before = old && valueIn(of.noun, old);
    const stays = before && of.whole ? Object.entries(before).filter(([name]) => mapping.fields[name] === undefined) : undefined;
    const value = of.settled({ ...(stays ? { ...of.usual, ...Object.fromEntries(stays) } : (before ?? of.usual)), ...said });
    if (faults.length === 0) {
      const shape = of.noun.fields.safeParse(value);
      const wrong = shape.success ? of.check(value) : shapeFaults(shape.error.issues, value, of.noun.fields);
      for (const [name, why] of fieldErrors(wrong, of.noun.fields)) faults.push(under(mapping, name, why));
    }
    const same = before ? isSame(before, value) : of.like?.(value) !== undefined;
    const is = faults.length > 0 ? "wrong" : same ? "same" : old ? "changed" : "new";
    reports.push({ row: row.number, is, name: of.nameOf(value as Record<string, unknown>), faults });
    if (is === "new" || is === "changed")
      changes.push({ id: id ?? of.newId(), value: old ? value : { ...value, ...of.beside }, ...(old && { old }) });
  }
  return { rows: reports, changes: reports.some(({ is }) => is === "wrong") ? [] : changes };
}

const isSame = (a: object, b: object): boolean => {
  const sorted = (value: object) => JSON.stringify(Object.entries(value).sort(([x], [y]) => (x < y ? -1 : 1)));
  return sorted(a) === sorted(b);
};

/** An id made of a name: 'Film 100 nF 63 V' is film-100-nf-63-v. */
export const slug = (name: string): string =>
  name
    .normalize("NFKD")
    .replaceAll("µ", "u")
    .replaceAll("μ", "u")
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
    .replaceAll(/^-+|-+$/g, "")
    .slice(0, 80) || "part";
