/** The one database type, whether a local file or libSQL over HTTP stands behind it. */
import type { LibSQLDatabase } from "drizzle-orm/libsql";
import type { SteadyClient } from "./steadyClient.js";

export type Database = LibSQLDatabase<Record<string, never>>;

interface Write {
  readonly toSQL: () => { readonly sql: string; readonly params: unknown[] };
}

/** A note beside what was asked for, as when a token was last used: no reason to wait. Answers whether it was made. */
export function noted(db: Database, write: Write): Promise<boolean> {
  const { sql, params } = write.toSQL();
  return (db as Database & { readonly $client: SteadyClient }).$client.atOnce({ sql, args: params as never });
}

/** Times are RFC 3339 in UTC, such as 2026-11-25T09:30:00.000Z; the caller reads the clock. */
export type Instant = string;
