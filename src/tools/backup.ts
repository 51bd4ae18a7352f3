/** npm run backup: the whole shop in one file, checked from end to end once it is written. */
import { createWriteStream, existsSync } from "node:fs";
import { rename, rm, stat } from "node:fs/promises";
import { join, resolve } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { parseArgs } from "node:util";
import { backupFaultText } from "../http/dataOut/backupText.js";
import { backupLines } from "../records/backup/dump.js";
import { readBackup } from "../records/backup/read.js";
import { zipped } from "../records/backup/zip.js";
import { connectWeb, UNHURRIED } from "../records/connectWeb.js";
import type { Database } from "../records/database.js";
import { fileTrouble } from "../records/fileTrouble.js";
import { photoFiles } from "../records/photoFiles.js";
import { photoFolder } from "../records/photoFolder.js";
import type { PhotoStore } from "../records/photoStore.js";
import { progress } from "./backup/progress.js";
import { fileSource, migrations } from "./backup/restoreFile.js";
import { leaveUnready, refuseNewer } from "./migrateDatabase.js";
import { wholeFile } from "./wholeFile.js";

const HELP = `npm run backup -- FILE                       the shop in ./data (or OHMWRIGHT_DATA), also while it runs
npm run backup -- FILE --data DIR            the one in DIR
LIBSQL_URL=libsql://... npm run backup -- FILE   a hosted one, without its photos: GET /api/backup has them too
npm run backup -- -h, --help                 this
FILE must not be there yet. It holds everything, customers' data too: keep it where only the shop can read it.`;

const say = (text: string) => process.stdout.write(`${text}\n`);

function leave(why: string): never {
  process.stderr.write(`${why}\n`);
  process.exit(1);
}

function readOptions() {
  try {
    return parseArgs({
      allowPositionals: true,
      options: { data: { type: "string" }, help: { type: "boolean", short: "h", default: false } },
    });
  } catch (error) {
    return leave(`${(error as Error).message}\n\n${HELP}`);
  }
}

const { values: options, positionals } = readOptions();
if (options.help) {
  say(HELP);
  process.exit(0);
}
const [file] = positionals;
if (!file || positionals.length > 1) leave(`Name one file to write.\n\n${HELP}`);
if (existsSync(file)) leave(`${file} is there already; give another name.`);

async function open(): Promise<{ readonly db: Database; readonly photos?: PhotoStore; readonly done: () => void }> {
  const hosted = options.data === undefined ? process.env.LIBSQL_URL : undefined;
  if (hosted) {
    const db = connectWeb(hosted, process.env.LIBSQL_AUTH_TOKEN, UNHURRIED);
    await refuseNewer(db).catch(leaveUnready);
    return { db, done: () => undefined };
  }
  const data = resolve(options.data ?? process.env.OHMWRIGHT_DATA ?? "data");
  const path = join(data, "ohmwright.db");
  if (!existsSync(path)) leave(`There is no database at ${path}; say where it is with --data.`);
  try {
    const { db, close } = await wholeFile(path);
    await refuseNewer(db);
    return { db, photos: photoFolder(join(data, "photos")), done: close };
  } catch (error) {
    return fileTrouble(error, path) ? leave(fileTrouble(error, path)!) : leaveUnready(error);
  }
}

const { db, photos, done } = await open();
const part = `${file}.part`;
try {
  const files = async (at: Database) => (photos ? photoFiles(at, photos) : []);
  const stream = zipped(backupLines(db, new Date().toISOString(), files, progress("Written")));
  await pipeline(Readable.fromWeb(stream as never), createWriteStream(part, { mode: 0o600 }));
} catch (error) {
  await rm(part, { force: true });
  leave(`The backup was not made: ${fileTrouble(error, resolve(file)) ?? (error as Error).message}`);
} finally {
  done();
}
const read = await readBackup(fileSource(part, progress("Read back")), migrations().length);
if (read.is !== "sound") leave(`The backup was written to ${part} but cannot be read back: ${backupFaultText(read)}`);
await rename(part, file);
const rows = Object.values(read.head.tables).reduce((sum, table) => sum + table.rows, 0);
say(
  `${file}: ${rows} rows of ${Object.keys(read.head.tables).length} tables, ${read.head.files} photos, ${(await stat(file)).size} bytes. Read back and sound.`,
);
