/** The schema a database is at, against the migrations of this program. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { sql } from "drizzle-orm";
import { migrate } from "drizzle-orm/libsql/migrator";
import { values } from "../records/backup/values.js";
import type { Database } from "../records/database.js";
import { busyIn } from "../records/databaseBusy.js";

export const MIGRATIONS = fileURLToPath(new URL("../../migrations/", import.meta.url));

export interface Journal {
  readonly entries: readonly { readonly tag: string; readonly when: number }[];
}

/** Oldest first. */
export const journal = (): Journal => JSON.parse(readFileSync(`${MIGRATIONS}meta/_journal.json`, "utf8")) as Journal;

/** What every command that meets a newer database leaves with. */
export const NEWER_CODE = 3;

export class DatabaseNewer extends Error {
  constructor(applied: number, known: number) {
    super(
      `This database was last used by a newer version of Ohmwright (it has had ${applied} migrations, this version knows ${known}), so nothing was touched: use that version or a later one.`,
    );
  }
}

/** Why a command cannot work on this database, where that is no fault of ours. */
export function unready(error: unknown): { readonly why: string; readonly code: number } | undefined {
  if (error instanceof DatabaseNewer) return { why: error.message, code: NEWER_CODE };
  return busyIn(error) && { why: "Another program holds the database; end that, then try again.", code: 1 };
}

/** How a command ends then. */
export function leaveUnready(error: unknown): never {
  const refusal = unready(error);
  if (!refusal) throw error;
  process.stderr.write(`${refusal.why}\n`);
  process.exit(refusal.code);
}

/** Throws for a database that has had a migration which is none of ours; writes nothing. Answers whether it has had them all. */
export async function refuseNewer(db: Database): Promise<boolean> {
  const known = new Set(journal().entries.map(({ when }) => when));
  const [table] = await values(db, sql`SELECT 1 FROM sqlite_master WHERE name = '__drizzle_migrations'`);
  const applied = table ? await values<[number]>(db, sql`SELECT created_at FROM __drizzle_migrations`) : [];
  if (applied.some(([when]) => !known.has(Number(when)))) throw new DatabaseNewer(applied.length, known.size);
  return applied.length === known.size;
}

/** Brings a database up to the newest schema; one that is there already is not written to. */
export async function migrateDatabase(db: Database): Promise<void> {
  if (!(await refuseNewer(db))) await migrate(db, { migrationsFolder: MIGRATIONS });
}
