/** Database files that take long to make: each is made once in a worker, and copied for those who write in it. */
import { rmSync } from "node:fs";
import { copyFile, mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { migrate } from "drizzle-orm/libsql/migrator";
import { connectFile } from "../../../src/records/connectFile.js";
import type { Database } from "../../../src/records/database.js";

export interface MadeFile<Made> {
  readonly path: string;
  /** What filling it answered. */
  readonly made: Made;
}

export type MadeOnce<Made> = () => Promise<MadeFile<Made>>;

/** `fill` finds a copy of what `from` made, or a file without tables. */
export function madeOnce<Made>(fill: (db: Database) => Promise<Made>, from?: MadeOnce<unknown>): MadeOnce<Made> {
  let kept: Promise<MadeFile<Made>> | undefined;
  const make = async () => {
    const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
    process.once("exit", () => rmSync(folder, { recursive: true }));
    const path = join(folder, "shop.db");
    if (from) await copyFile((await from()).path, path);
    const { db, close } = await connectFile(`file:${path}`);
    const made = await fill(db);
    await db.run("PRAGMA wal_checkpoint(TRUNCATE)");
    close();
    return { path, made };
  };
  return () => {
    kept ??= make();
    return kept;
  };
}

/** Tables and nothing in them. */
export const migratedFile = madeOnce((db) => migrate(db, { migrationsFolder: "migrations" }));
