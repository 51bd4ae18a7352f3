/**
 * What reads a file: a connection of its own that keeps its statements ready, since the client prepares each anew, which takes as long as
 * running it. Rows are read by name or by position, as those of the client are.
 */
import type { InArgs, InStatement, InValue, ResultSet, Row } from "@libsql/client";
import Connection from "libsql";

export type Asked = InStatement | [string, InArgs?];

/** The program has fewer texts; those with lists of ids are one for each length. */
const KEPT = 500;

export class FileReads {
  readonly #connection: Connection.Database;
  readonly #ready = new Map<string, (args: InArgs) => ResultSet>();

  constructor(path: string) {
    this.#connection = new Connection(path, { timeout: 0 });
    this.#connection.exec("PRAGMA query_only = ON");
  }

  /** All of one moment of the database. */
  all(asked: readonly Asked[]): ResultSet[] {
    if (asked.length < 2) return asked.map((one) => this.#one(one));
    this.#connection.exec("BEGIN");
    try {
      return asked.map((one) => this.#one(one));
    } finally {
      if (this.#connection.inTransaction) this.#connection.exec("COMMIT");
    }
  }

  close(): void {
    this.#connection.close();
  }

  #one(asked: Asked): ResultSet {
    const [sql, args = []] =
      typeof asked === "string" ? [asked] : Array.isArray(asked) ? asked : ([asked.sql, asked.args] as const);
    const kept = this.#ready.get(sql);
    if (kept) return kept(args);
    const [oldest] = this.#ready.size < KEPT ? [] : this.#ready.keys();
    if (oldest !== undefined) this.#ready.delete(oldest);
    const made = readyTo(this.#connection, sql);
    this.#ready.set(sql, made);
    return made(args);
  }
}

function readyTo(connection: Connection.Database, sql: string): (args: InArgs) => ResultSet {
  const statement = connection.prepare(sql).raw().safeIntegers();
  const told = statement.columns();
  const [columns, columnTypes] = [told.map(({ name }) => name), told.map(({ type }) => type ?? "")];
  // Of two columns of one name the first has it; one that is named as a position is read by that alone.
  const names = columns.flatMap((name, at) =>
    columns.indexOf(name) === at && !(name in Positions.prototype) ? [[name, at] as const] : [],
  );
  return (args) => {
    const given = Array.isArray(args)
      ? args.map(asBound)
      : Object.fromEntries(Object.entries(args).map(([name, value]) => [name.replace(/^[@$:]/, ""), asBound(value)]));
    const rows = (statement.all(given) as unknown[][]).map((values) => rowOf(names, values));
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

function asBound(value: InValue): unknown {
  if (typeof value === "boolean") return value ? 1 : 0;
  if (value instanceof ArrayBuffer) return Buffer.from(value);
  return value instanceof Date ? value.valueOf() : value;
}

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

function rowOf(names: readonly (readonly [name: string, at: number])[], values: unknown[]): Row {
  for (let at = 0; at < values.length; at += 1) values[at] = asRead(values[at]);
  const row = new Positions(values) as unknown as Record<string, unknown>;
  for (const [name, at] of names) row[name] = values[at];
  return row as unknown as Row;
}

function asRead(value: unknown): unknown {
  if (value instanceof Buffer) return value.buffer;
  if (typeof value !== "bigint") return value;
  const number = Number(value);
  if (!Number.isSafeInteger(number)) throw new RangeError(`${value} is more than a number holds.`);
  return number;
}
