/** A noun as a table: what each column is called, and how a row fills it. */
import type { CsvCell, Digits } from "../../documents/csvText.js";
import { decimalsOf } from "../../estimating/money/currency.js";
import type { Database } from "../../records/database.js";
import { plainOf, shift } from "../../wording/decimal.js";

export interface Sheet {
  readonly columns: readonly string[];
  /** Pages of rows. */
  readonly rows: (db: Database) => AsyncIterable<readonly (readonly CsvCell[])[]>;
}

export type Columns<Row> = Readonly<Record<string, (row: Row) => CsvCell>>;

export const sheet = <Row>(columns: Columns<Row>, pages: (db: Database) => AsyncIterable<readonly Row[]>): Sheet => ({
  columns: Object.keys(columns),
  rows: async function* (db) {
    const fill = Object.values(columns);
    for await (const page of pages(db)) yield page.map((row) => fill.map((cell) => cell(row)));
  },
});

/** Minor units as the currency writes them: 1250 of EUR is 12.50. */
export function amount(minor: number | undefined, currency: string): Digits | undefined {
  if (minor === undefined) return undefined;
  const decimals = decimalsOf(currency) ?? 0;
  const [whole, rest = ""] = shift(plainOf(minor), -decimals).split(".");
  return { digits: decimals === 0 ? whole! : `${whole}.${rest.padEnd(decimals, "0")}` };
}

/** Several in one cell. */
export const listed = (texts: readonly string[] | undefined): string | undefined => texts?.join("; ");
