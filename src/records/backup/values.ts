import type { SQL } from "drizzle-orm";
import type { Database } from "../database.js";

/** Rows as arrays, in the order of the columns asked for: the driver's own rows only look like arrays. */
export async function values<Row extends readonly unknown[]>(db: Database, query: SQL): Promise<Row[]> {
  const rows = await db.values(query);
  return rows.map((row) => Array.from(row as ArrayLike<unknown>) as unknown as Row);
}
