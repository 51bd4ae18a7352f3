/** Makes the tables of an earlier version, for rows that come from it. */
import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { migrate } from "drizzle-orm/libsql/migrator";
import type { Database } from "../../records/database.js";
import { journal, MIGRATIONS } from "../migrateDatabase.js";

/** Names, oldest first. */
export const migrations = (): readonly string[] => journal().entries.map(({ tag }) => tag);

/** The first `count` migrations and no more. */
export async function migrateTo(db: Database, count: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "ohmwright-migrations-"));
  try {
    cpSync(MIGRATIONS, folder, { recursive: true });
    const all = journal();
    writeFileSync(join(folder, "meta/_journal.json"), JSON.stringify({ ...all, entries: all.entries.slice(0, count) }));
    await migrate(db, { migrationsFolder: folder });
  } finally {
    rmSync(folder, { recursive: true });
  }
}
