/** A noun as a table: what each column is called, and how a row fills it. */
import type { z } from "zod";
import { saysOf } from "../../acts/field.js";
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

/** What an act's fields say of a noun, each under its name: amounts in the row's currency, which stands behind one that does not name it. */
export const declared = <Row extends object>({ fields }: { readonly fields: z.ZodType }): Columns<Row> =>
  Object.fromEntries(
    [...saysOf(fields)].flatMap(([name, { kind, currencyIn }]) => {
      const of = (row: Row, key: string) => (row as Readonly<Record<string, unknown>>)[key];
      const cell = (row: Row): CsvCell => {
        const value = of(row, name) as CsvCell | readonly string[];
        if (kind === "money")
          return amount(value as number | undefined, of(row, currencyIn === "" ? "shop" : (currencyIn ?? "currency")) as string);
        return Array.isArray(value) ? listed(value) : (value as CsvCell);
      };
      const currency = (row: Row) => (of(row, name) === undefined ? undefined : (of(row, "currency") as string));
      return kind === "money" && currencyIn === undefined
        ? [
            [name, cell],
            ["currency", currency],
          ]
        : [[name, cell]];
    }),
  );

export const amount = (minor: number | undefined, currency: string): Digits | undefined =>
  minor === undefined ? undefined : { digits: amountText(minor, currency) };

/** Several in one cell. */
export const listed = (texts: readonly string[] | undefined): string | undefined => texts?.join("; ");
