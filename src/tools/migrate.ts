/** npm run migrate: brings a libSQL database, hosted or a file, up to the newest schema, and fills a new one when asked. */
import { parseArgs } from "node:util";
import { connectFile } from "../records/connectFile.js";
import { connectWeb, UNHURRIED } from "../records/connectWeb.js";
import { SHOP, settings } from "../records/settings.js";
import { fillOnce } from "./firstShop.js";
import { leaveUnready, migrateDatabase } from "./migrateDatabase.js";

const HELP = `LIBSQL_URL=libsql://... LIBSQL_AUTH_TOKEN=... npm run migrate                create or update the tables
LIBSQL_URL=libsql://... LIBSQL_AUTH_TOKEN=... npm run migrate -- --empty     and start an empty shop in a new database
LIBSQL_URL=libsql://... LIBSQL_AUTH_TOKEN=... npm run migrate -- --demo      and load the demo shop into a new database
Answers 0, 1 when it could not be done, and 3 when the database is of a newer version.`;

const say = (text: string) => process.stdout.write(`${text}\n`);

function leave(why: string): never {
  process.stderr.write(`${why}\n\n${HELP}\n`);
  process.exit(1);
}

function readOptions() {
  try {
    return parseArgs({
      options: {
        empty: { type: "boolean", default: false },
        demo: { type: "boolean", default: false },
        help: { type: "boolean", short: "h", default: false },
      },
    }).values;
  } catch (error) {
    return leave((error as Error).message);
  }
}

const options = readOptions();
if (options.help) {
  say(HELP);
  process.exit(0);
}
const url = process.env.LIBSQL_URL ?? leave("LIBSQL_URL is not set.");
if (!/^(libsql|https?|file):/.test(url)) leave("LIBSQL_URL must begin with libsql:, https:, http: or file:.");
if (options.empty && options.demo) leave("Give --empty or --demo, not both.");

const db = url.startsWith("file:") ? (await connectFile(url)).db : connectWeb(url, process.env.LIBSQL_AUTH_TOKEN, UNHURRIED);
await migrateDatabase(db).catch(leaveUnready);
say("The tables are up to date.");
if (options.empty || options.demo) {
  const loaded = await fillOnce(db, options.demo ? "demo" : "empty", new Date());
  say(loaded ? `The ${loaded} shop was loaded.` : "The database holds a shop already; nothing was loaded.");
} else if (!(await settings.find(db, SHOP))) say("The database holds no shop yet. Next: npm run migrate -- --empty (or --demo).");
