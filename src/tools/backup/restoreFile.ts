/**
 * Restores into a new database file: the tables as old as the backup, its rows, then the newer migrations. Nothing that is there
 * is touched meanwhile.
 */

import { readBackup, type Source } from "../../records/backup/read.js";
import { type Restored, restore } from "../../records/backup/restore.js";
import { connectFile, type FileDatabase } from "../../records/connectFile.js";
import { migrateDatabase } from "../migrateDatabase.js";
import { migrateTo, migrations } from "./migrateTo.js";

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
