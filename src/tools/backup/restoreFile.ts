/**
 * Restores into a new database file: the tables as old as the backup, its rows, then the newer migrations. Nothing that is there
 * is touched meanwhile.
 */

import { cpSync, createReadStream, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Readable } from "node:stream";
import { migrate } from "drizzle-orm/libsql/migrator";
import { readBackup, type Source } from "../../records/backup/read.js";
import { type Restored, restore } from "../../records/backup/restore.js";
import { connectFile, type FileDatabase } from "../../records/connectFile.js";
import type { Database } from "../../records/database.js";
import { journal, MIGRATIONS, migrateDatabase } from "../migrateDatabase.js";

export type KeepFile = Parameters<typeof restore>[2];

/** `path` must not be there yet; the database is open when it was restored, and the caller closes it. */
export async function restoreFile(
  path: string,
  source: Source,
  keepFile: KeepFile,
): Promise<{ readonly restored: Restored; readonly opened?: FileDatabase }> {
  const read = await readBackup(source, migrations().length);
  if (read.is !== "sound") return { restored: read };
  const opened = await connectFile(`file:${path}`);
  await migrateTo(opened.db, read.head.schema);
  const restored = await restore(opened.db, source, keepFile);
  if (restored.is !== "restored") {
    opened.close();
    return { restored };
  }
  await migrateDatabase(opened.db);
  return { restored, opened };
}

/** A backup on disk; opened anew each time it is read. */
export const fileSource =
  (path: string): Source =>
  () =>
    Readable.toWeb(createReadStream(path)) as unknown as ReadableStream<Uint8Array>;

/** Names, oldest first. */
export const migrations = (): readonly string[] => journal().entries.map(({ tag }) => tag);

/** The first `count` migrations and no more: the tables of an earlier version, for rows that come from it. */
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
