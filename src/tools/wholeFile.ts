/** Opens a shop's file that must be there whole: nothing is made of one that was cut short, by whoever only means to look at it either. */
import { stat } from "node:fs/promises";
import { sql } from "drizzle-orm";
import { values } from "../records/backup/values.js";
import { connectFile, type FileDatabase } from "../records/connectFile.js";

/** SQLite takes a file of nothing, or of one byte, for a new database, and what is missing of a page for zeros. A log beside it may have the rest. */
export async function wholeFile(file: string): Promise<FileDatabase> {
  const [{ size }, log] = await Promise.all([stat(file), stat(`${file}-wal`).catch(() => ({ size: 0 }))]);
  const cut = () => Object.assign(new Error(`${file} is cut short.`), { code: "SQLITE_CORRUPT" });
  if (size <= 1) throw cut();
  const opened = await connectFile(`file:${file}`);
  const [page] = await values<[number]>(opened.db, sql`PRAGMA page_size`);
  if (log.size > 0 || size % page![0] === 0) return opened;
  opened.close();
  throw cut();
}
