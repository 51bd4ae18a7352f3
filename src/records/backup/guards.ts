/**
 * Triggers hold what is on record as it is. A restore puts rows back that the triggers themselves made, and an erasure changes what
 * else never changes: both take the triggers away and put them back in the very same batch, so that no other write ever meets the
 * tables without them.
 */
import { sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Database } from "../database.js";
import { values } from "./values.js";

export interface Trigger {
  readonly name: string;
  readonly table: string;
  /** The statement that makes it. */
  readonly sql: string;
}

export async function triggersOf(db: Database): Promise<Trigger[]> {
  const rows = await values<[string, string, string]>(
    db,
    sql`SELECT name, tbl_name, sql FROM sqlite_master WHERE type = 'trigger' ORDER BY rowid`,
  );
  return rows.map(([name, table, made]) => ({ name, table, sql: made }));
}

export const dropped = (db: Database, { name }: Trigger): BatchItem<"sqlite"> =>
  db.run(sql`DROP TRIGGER IF EXISTS ${sql.identifier(name)}`);

export const madeAgain = (db: Database, trigger: Trigger): BatchItem<"sqlite"> => db.run(sql.raw(trigger.sql));
