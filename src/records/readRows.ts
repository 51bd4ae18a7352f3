/** Rows as the client has them, by name and by position, made without defining every value of a row twice, as it does. */
import type { ResultSet, Row } from "@libsql/client";

/** By name, as its own; by position, through its prototype, which no copy of a row takes along. */
class Positions {
  readonly #values: readonly unknown[];
  constructor(values: readonly unknown[]) {
    this.#values = values;
  }
  get length() {
    return this.#values.length;
  }
  static to(most: number): void {
    for (let at = 0; at < most; at += 1)
      Object.defineProperty(Positions.prototype, at, {
        get(this: Positions) {
          return this.#values[at];
        },
      });
  }
}
Positions.to(200);

/** Makes the answer to a statement whose columns are these, of rows of values that `read` makes what a client gives. */
export function resultsOf(
  told: readonly { readonly name: string; readonly type: string }[],
): <Value>(rows: readonly (readonly Value[])[], read: (value: Value) => unknown) => ResultSet {
  const [columns, columnTypes] = [told.map(({ name }) => name), told.map(({ type }) => type)];
  // Of two columns of one name the first has it; one that is named as a position is read by that alone.
  const names = columns.flatMap((name, at) =>
    columns.indexOf(name) === at && !(name in Positions.prototype) ? [[name, at] as const] : [],
  );
  const rowOf = <Value>(told: readonly Value[], read: (value: Value) => unknown): Row => {
    const values = told.map(read);
    const row = new Positions(values) as unknown as Record<string, unknown>;
    for (const [name, at] of names) row[name] = values[at];
    return row as unknown as Row;
  };
  return (found, read) => {
    const rows = found.map((values) => rowOf(values, read));
    return {
      columns,
      columnTypes,
      rows,
      rowsAffected: 0,
      lastInsertRowid: undefined,
      toJSON: () => ({ columns, columnTypes, rows }),
    };
  };
}

/** A whole number of the database. */
export function numberOf(whole: bigint | string): number {
  const number = Number(whole);
  if (!Number.isSafeInteger(number)) throw new RangeError(`${whole} is more than a number holds.`);
  return number;
}
