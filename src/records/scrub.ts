/**
 * Writes the database file anew, so that erased text does not stay in its free space (SQLite, VACUUM). A hosted database does not
 * let itself be written anew by a shop; then its keeper's own copies and free space are as they are.
 */
import { sql } from "drizzle-orm";
import type { Database } from "./database.js";

export async function scrub(db: Database): Promise<boolean> {
  try {
    await db.run(sql`VACUUM`);
    await db.run(sql`PRAGMA wal_checkpoint(TRUNCATE)`);
    return true;
  } catch {
    return false;
  }
}
