/** The one database type, whether a local file or libSQL over HTTP stands behind it. */
import type { LibSQLDatabase } from "drizzle-orm/libsql";

export type Database = LibSQLDatabase<Record<string, never>>;

/** Times are RFC 3339 in UTC, such as 2026-11-25T09:30:00.000Z; the caller reads the clock. */
export type Instant = string;
