/**
 * Restores into a new database file: the tables as old as the backup, its rows, then the newer migrations. Nothing that is there
 * is touched meanwhile.
 */

import { cpSync, createReadStream, mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sql } from "drizzle-orm";
import { migrate } from "drizzle-orm/libsql/migrator";
import { readBackup, type Source } from "../../records/backup/read.js";
import { type Restored, restore } from "../../records/backup/restore.js";
import { asStream } from "../../records/backup/zip.js";
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
  // Nothing of it counts before all of it is there, so the disk is waited for once, by whoever gives it its place.
  await opened.db.run(sql`PRAGMA synchronous = OFF`);
  await migrateTo(opened.db, read.head.schema);
  const restored = await restore(opened.db, source, keepFile, read);
  if (restored.is !== "restored") {
    opened.close();
    return { restored };
  }
  await migrateDatabase(opened.db);
  return { restored, opened };
}

/** A backup on disk; opened anew each time it is read. `Readable.toWeb` would hold all of it in memory. */
export const fileSource =
  (path: string, told: (share: number) => void = () => undefined): Source =>
  () =>
    asStream(chunksOf(path, told));

async function* chunksOf(path: string, told: (share: number) => void): AsyncGenerator<Uint8Array> {
  const [file, { size }] = [createReadStream(path), statSync(path)];
  for await (const chunk of file as AsyncIterable<Uint8Array>) {
    told(file.bytesRead / size);
    yield chunk;
  }
}

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
