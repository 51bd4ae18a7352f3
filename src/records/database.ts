/** The one database type, whether a local file or libSQL over HTTP stands behind it. */
import type { ResultSet } from "@libsql/client";
import { fillPlaceholders } from "drizzle-orm";
import type { LibSQLDatabase } from "drizzle-orm/libsql";
import type { SQLitePreparedQuery } from "drizzle-orm/sqlite-core";
import type { SteadyClient } from "./steadyClient.js";

export type Database = LibSQLDatabase<Record<string, never>>;

interface Write {
  readonly toSQL: () => { readonly sql: string; readonly params: unknown[] };
}

/** A note beside what was asked for, as when a token was last used: no reason to wait. Answers whether it was made. */
export function noted(db: Database, write: Write): Promise<boolean> {
  const { sql, params } = write.toSQL();
  return standingOn(db).atOnce({ sql, args: params as never });
}

const standingOn = (db: Database): SteadyClient => (db as Database & { readonly $client: SteadyClient }).$client;

type Statement = Pick<SQLitePreparedQuery<never>, "getQuery" | "mapResult">;
type Prepared = { readonly prepare: () => Statement };
type Rows<Q> = Q extends { readonly all: () => Promise<infer R> } ? R : never;

/**
 * As `db.batch`, but that the text of the statements is made once for the process and not at each call, which took as long as running
 * them. `sql.placeholder` names what each call fills in. Nothing is kept of the database that happened to come first but its dialect.
 */
export function batchOnce<const Q extends readonly Prepared[]>(queriesOf: (db: Database) => Q) {
  let kept: readonly Statement[] | undefined;
  return async (db: Database, given: Record<string, unknown>): Promise<{ -readonly [At in keyof Q]: Rows<Q[At]> }> => {
    kept ??= queriesOf(db).map((query) => query.prepare());
    const queries = kept;
    const statements = queries.map((query) => {
      const { sql, params } = query.getQuery();
      return { sql, args: fillPlaceholders(params, given) as never };
    });
    const results: ResultSet[] = await standingOn(db).batch(statements);
    return results.map((result, at) => queries[at]!.mapResult(result, true)) as never;
  };
}

/** Times are RFC 3339 in UTC, such as 2026-11-25T09:30:00.000Z; the caller reads the clock. */
export type Instant = string;
