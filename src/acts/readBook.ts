/** A rate book from a file: the whole of it as JSON, or one table of it as CSV, as what it changes. Faults name row and column in words. */
import type { Figures } from "../wording/figures.js";
import { BOOK_PARTS, type BookPart, type PartName } from "../wording/rateBookParts.js";
import { bookFaults } from "./changeRateBook.js";
import type { Fault } from "./fault.js";
import { saysOf } from "./field.js";
import { changeFields, type RateBookChange } from "./rateBookFields.js";
import { readForm, type Typed } from "./readForm.js";
import type { Table } from "./tableRows.js";

export type BookRead =
  | { readonly ok: true; readonly change: RateBookChange }
  | { readonly ok: false; readonly whys: readonly string[] };

/** What the file does not have stays. A kept record of the API is read as the book in it. */
export function readBookJson(text: string, inForceFrom: string, { currency, locale }: Figures): BookRead {
  let sent: unknown;
  try {
    sent = JSON.parse(text);
  } catch {
    return { ok: false, whys: ["This is not JSON; give the file as it was downloaded here."] };
  }
  const inside = (sent as { readonly book?: unknown } | null)?.book ?? sent;
  if (typeof inside !== "object" || inside === null || Array.isArray(inside))
    return { ok: false, whys: ["This is JSON and no rate book; give the file as it was downloaded here."] };
  const { id: _, version: __, currency: theirs = currency, ...rest } = inside as Record<string, unknown>;
  if (theirs !== currency) return { ok: false, whys: [`Currency: the file is in ${theirs}, and this rate book in ${currency}.`] };
  const value = { ...rest, inForceFrom };
  const read = changeFields.safeParse(value);
  return read.success
    ? { ok: true, change: read.data }
    : { ok: false, whys: told(bookFaults(read.error.issues, value, { currency, locale })) };
}

const told = (faults: readonly Fault[]) => faults.map(({ detail }) => detail);

/** Columns of a table of the book: its row's fields by their own names. */
export const bookColumns = (part: PartName): readonly string[] => {
  const start = `${BOOK_PARTS[part].list}.*.`;
  return [...saysOf(changeFields).keys()].flatMap((name) => (name.startsWith(start) ? [name.slice(start.length)] : []));
};

/** Headings are the columns' own names or their labels. */
export function readBookTable(part: PartName, { headings, rows }: Table, inForceFrom: string, currency: string): BookRead {
  const { list, title }: BookPart = BOOK_PARTS[part];
  const says = saysOf(changeFields);
  const labelOf = (column: string) => says.get(`${list}.*.${column}`)!.label;
  const columns = new Map(
    bookColumns(part)
      .toReversed()
      .flatMap((column) => [column, labelOf(column)].map((name) => [name.toLowerCase(), column])),
  );
  const columnOf = (heading: string) => columns.get(heading.toLowerCase());
  const stray = headings.filter((heading) => heading !== "" && columnOf(heading) === undefined);
  if (stray.length > 0)
    return {
      ok: false,
      whys: stray.map(
        (heading) => `Column '${heading}' is none of ${title}; take it out, or name it as in the file downloaded here.`,
      ),
    };
  const cells = new Map(
    rows.flatMap(({ number, cell }) =>
      headings.flatMap((heading): [string, string][] => {
        const column = columnOf(heading);
        return column === undefined ? [] : [[`${list}.${number}.${column}`, cell(heading)]];
      }),
    ),
  );
  const typed: Typed = {
    get: (name) => (name === "inForceFrom" ? inForceFrom : cells.get(name)),
    all: (name) =>
      cells
        .get(name)
        ?.split(";")
        .map((each) => each.trim()) ?? [],
    names: ["inForceFrom", ...cells.keys()],
  };
  const read = readForm(changeFields, typed, { locale: "en-GB", currency, mark: "." });
  if (read.ok) return { ok: true, change: read.value };
  return {
    ok: false,
    whys: [...read.errors].map(([field, why]) => (rowIn(field) === undefined ? why : `Row ${rowIn(field)}: ${why}`)),
  };
}

const rowIn = (field: string): string | undefined => /\.(\d+)(\.|$)/.exec(field)?.[1];
