/**
 * What reads a file: a connection of its own that keeps its statements ready, since the client prepares each anew, which takes as long as
 * running it. Rows are read by name or by position, as those of the client are.
 */
import type { InArgs, InStatement, InValue, ResultSet } from "@libsql/client";
import Connection from "libsql";
import { numberOf, resultsOf } from "./readRows.js";

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
  const results = resultsOf(statement.columns().map(({ name, type }) => ({ name, type: type ?? "" })));
  return (args) => {
    const given = Array.isArray(args)
      ? args.map(asBound)
      : Object.fromEntries(Object.entries(args).map(([name, value]) => [name.replace(/^[@$:]/, ""), asBound(value)]));
    return results(statement.all(given) as unknown[][], asRead);
  };
}

function asBound(value: InValue): unknown {
  if (typeof value === "boolean") return value ? 1 : 0;
  if (value instanceof ArrayBuffer) return Buffer.from(value);
  return value instanceof Date ? value.valueOf() : value;
}

function asRead(value: unknown): unknown {
  if (value instanceof Buffer) return value.buffer;
  return typeof value === "bigint" ? numberOf(value) : value;
}
