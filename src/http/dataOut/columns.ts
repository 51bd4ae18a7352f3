/** A noun as a table: what each column is called, and how a row fills it. */
import type { CsvCell, Digits } from "../../documents/csvText.js";
import type { Database } from "../../records/database.js";
import { amountText } from "../../wording/decimal.js";

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

export const amount = (minor: number | undefined, currency: string): Digits | undefined =>
  minor === undefined ? undefined : { digits: amountText(minor, currency) };

/** Several in one cell. */
export const listed = (texts: readonly string[] | undefined): string | undefined => texts?.join("; ");
