/** npm run restore: a backup into an empty database, brought up to date on the way and checked before it takes its place. */
import { createWriteStream, existsSync } from "node:fs";
import { mkdir, mkdtemp, open, rename, rm } from "node:fs/promises";
import { join, resolve } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { parseArgs } from "node:util";
import { sql } from "drizzle-orm";
import { mismatchText } from "../acts/checked/mismatch.js";
import { restoreRefused } from "../http/dataOut/backupText.js";
import { backupLines } from "../records/backup/dump.js";
import { restore } from "../records/backup/restore.js";
import { zipped } from "../records/backup/zip.js";
import { connectFile } from "../records/connectFile.js";
import { connectWeb, UNHURRIED } from "../records/connectWeb.js";
import type { Database } from "../records/database.js";
import { intoStore } from "../records/photoFiles.js";
import { photoFolder } from "../records/photoFolder.js";
import { SHOP, settings } from "../records/settings.js";
import { progress } from "./backup/progress.js";
import { fileSource, restoreFile } from "./backup/restoreFile.js";
import { DatabaseNewer, migrateDatabase, NEWER_CODE, refuseNewer } from "./migrateDatabase.js";
import { verifyShop } from "./verify/verifyShop.js";

const HELP = `npm run restore -- FILE                      into ./data (or OHMWRIGHT_DATA), where no shop is yet
npm run restore -- FILE --data DIR           into DIR
npm run restore -- FILE --replace            in place of the shop that is there, which is kept beside it
LIBSQL_URL=libsql://... npm run restore -- FILE  into a hosted database without a shop
npm run restore -- -h, --help                this
Stop the shop first. FILE is what npm run backup or GET /api/backup wrote; nobody stays signed in.`;

const say = (text: string) => process.stdout.write(`${text}\n`);

class Leave extends Error {}
const leave = (why: string): never => {
  throw new Leave(why);
};

function readOptions() {
  try {
    return parseArgs({
      allowPositionals: true,
      options: {
        data: { type: "string" },
        replace: { type: "boolean", default: false },
        help: { type: "boolean", short: "h", default: false },
      },
    });
  } catch (error) {
    return leave(`${(error as Error).message}\n\n${HELP}`);
  }
}

async function main(): Promise<number> {
  const { values: options, positionals } = readOptions();
  if (options.help) {
    say(HELP);
    return 0;
  }
  const [file] = positionals;
  if (!file || positionals.length > 1) return leave(`Name one backup to restore.\n\n${HELP}`);
  if (!existsSync(file)) return leave(`There is no file ${file}.`);
  const hosted = options.data === undefined ? process.env.LIBSQL_URL : undefined;
  if (hosted && options.replace) return leave("A hosted shop is not replaced; restore into a new database and point to that.");
  const folder = resolve(options.data ?? process.env.OHMWRIGHT_DATA ?? "data");
  const target = join(folder, "ohmwright.db");
  const there = !hosted && existsSync(target) && (await holdsShop(target));
  if (there && !options.replace)
    return leave(`${folder} holds a shop; give another folder with --data, or --replace to put this one in its place.`);

  await mkdir(folder, { recursive: true });
  const work = await mkdtemp(join(folder, ".restoring-"));
  try {
    const made = join(work, "ohmwright.db");
    const { restored, opened } = await restoreFile(
      made,
      fileSource(file, progress("Read, checked, then put in")),
      intoStore(photoFolder(join(work, "photos"))),
    );
    if (restored.is !== "restored" || !opened) return leave(restoreRefused(restored as never)[1].detail);
    const { mismatch, jobs } = await verifyShop(opened.db);
    if (hosted) await hand(opened.db, connectWeb(hosted, process.env.LIBSQL_AUTH_TOKEN, UNHURRIED), join(work, "newest.gz"));
    // One file that holds everything by itself, whatever this process still has open.
    const whole = join(work, "whole.db");
    await opened.db.run(sql`VACUUM INTO ${whole}`);
    opened.close();
    if (!hosted) {
      await onDisk(whole);
      await setAside(target, folder, there);
      await rename(whole, target);
      if (existsSync(join(work, "photos"))) await rename(join(work, "photos"), join(folder, "photos"));
    } else if (restored.head.files > 0) say("Photos go into the bucket by POST /api/restore only; they were left out here.");
    say(
      `${restored.rows} rows, ${jobs} jobs restored into ${hosted ? "the hosted database" : folder}, as of ${restored.head.madeAt}.`,
    );
    say(
      mismatch ? `It does not match, as it did not when it was backed up: ${mismatchText(mismatch.what)}` : "Everything matches.",
    );
    return mismatch ? 1 : 0;
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}

/** From here to there: both have the newest tables by now. */
async function hand(from: Database, to: Database, through: string): Promise<void> {
  await migrateDatabase(to);
  const lines = zipped(backupLines(from, new Date().toISOString()));
  await pipeline(Readable.fromWeb(lines as never), createWriteStream(through));
  const done = await restore(to, fileSource(through), async () => undefined);
  if (done.is !== "restored") leave(restoreRefused(done)[1].detail);
}

async function onDisk(path: string): Promise<void> {
  const file = await open(path, "r+");
  await file.sync().finally(() => file.close());
}

async function holdsShop(path: string): Promise<boolean> {
  const { db, close } = await connectFile(`file:${path}`);
  try {
    await refuseNewer(db);
    return (await settings.find(db, SHOP)) !== undefined;
  } catch (error) {
    // A newer one holds what this program cannot see.
    return error instanceof DatabaseNewer;
  } finally {
    close();
  }
}

/** Photos without a database too: nothing is written over. */
async function setAside(target: string, folder: string, shop: boolean): Promise<void> {
  const kept = join(folder, `before-restore-${new Date().toISOString().replaceAll(/[:.]/g, "-")}`);
  if (existsSync(target)) {
    const { db, close } = await connectFile(`file:${target}`);
    // The write-ahead log is left only when nobody else has the file open; then the file holds everything by itself.
    await db.run(sql`PRAGMA journal_mode = DELETE`).catch(() => leave("The shop is running; stop it, then restore."));
    close();
    await rename(target, `${kept}.db`);
  }
  const photos = join(folder, "photos");
  if (existsSync(photos)) await rename(photos, `${kept}-photos`);
  if (shop) say(`The shop that was there is kept as ${kept}.db.`);
}

process.exitCode = await main().catch((error: unknown) => {
  if (error instanceof DatabaseNewer) {
    process.stderr.write(`${error.message}\n`);
    return NEWER_CODE;
  }
  if (!(error instanceof Leave)) throw error;
  process.stderr.write(`${error.message}\n`);
  return 2;
});
