/** npm start: the shop on this machine, over a file database. */
import { mkdir } from "node:fs/promises";
import { resolve } from "node:path";
import { parseArgs } from "node:util";
import { refuseAddress } from "../http/guard/address.js";
import { connectFile } from "../records/connectFile.js";
import { photoFolder } from "../records/photoFolder.js";
import { build } from "./build.js";
import { fillOnce } from "./firstShop.js";
import { migrateDatabase } from "./migrateDatabase.js";

const PORT = 4700;
const HELP = `npm start                     the shop on http://127.0.0.1:${PORT}/, with the demo shop on the first start
npm start -- --empty          a first start without the demo shop
npm start -- --data DIR       where database and photos are kept (OHMWRIGHT_DATA, otherwise ./data)
npm start -- --port N         another port; 0 takes any free one
npm start -- --host ADDRESS   another address than loopback: wants OHMWRIGHT_SECRET, which opens the set-up, and HTTPS in front
npm start -- -h, --help       this
OHMWRIGHT_ORIGIN              where owners reach it, such as https://shop.example: what links on paper begin with`;

const say = (text: string) => process.stdout.write(`${text}\n`);

function leave(why: string): never {
  process.stderr.write(`${why}\n`);
  process.exit(1);
}

function readOptions() {
  try {
    return parseArgs({
      options: {
        empty: { type: "boolean", default: false },
        data: { type: "string" },
        port: { type: "string", default: String(PORT) },
        host: { type: "string", default: "127.0.0.1" },
        help: { type: "boolean", short: "h", default: false },
      },
    }).values;
  } catch (error) {
    return leave(`${(error as Error).message}\n\n${HELP}`);
  }
}

const options = readOptions();
if (options.help) {
  say(HELP);
  process.exit(0);
}
const port = Number(options.port);
if (!/^\d+$/.test(options.port) || port > 65_535) leave(`--port is '${options.port}'; give a number from 0 to 65535.`);
const secret = process.env.OHMWRIGHT_SECRET || undefined;
const folder = resolve(options.data ?? process.env.OHMWRIGHT_DATA ?? "data");

const origin = process.env.OHMWRIGHT_ORIGIN || undefined;
if (origin !== undefined && !(/^https?:/.test(origin) && URL.canParse(origin) && new URL(origin).origin === origin))
  leave(`OHMWRIGHT_ORIGIN is '${origin}'; give scheme and host only, such as https://shop.example`);

const refusal = refuseAddress(options.host, secret);
if (refusal) leave(refusal);

// The server's modules hold what the build makes.
await build();
const { startServer } = await import("../server.js");

await mkdir(folder, { recursive: true });
const { db, close } = await connectFile(`file:${folder}/ohmwright.db`);
await migrateDatabase(db);
const loaded = await fillOnce(db, options.empty ? "empty" : "demo", new Date());
if (loaded === "demo") say(`${folder} was empty: the demo shop was loaded. Everyone and everything in it is invented.`);
if (loaded === "empty")
  say(`${folder} was empty: an empty shop was made. Its rate book is an example; put your own rates in first.`);
if (!loaded && options.empty) say(`${folder} holds a shop already, so --empty changed nothing. Give another folder with --data.`);

const server = await startServer({
  ...{ db, host: options.host, port, secret, origin },
  photos: photoFolder(`${folder}/photos`),
}).catch((error: NodeJS.ErrnoException) =>
  leave(error.code === "EADDRINUSE" ? `Port ${port} is in use; give another with --port.` : error.message),
);
say(`Ohmwright is at ${server.url}`);
if (secret)
  say("Sign in with OHMWRIGHT_SECRET until someone has an account. Browsers keep the sign-in only over HTTPS or on localhost.");
say("Stop it with Ctrl-C.");

let stopping = false;
for (const signal of ["SIGINT", "SIGTERM"] as const) {
  process.on(signal, async () => {
    if (stopping) return;
    stopping = true;
    await server.stop();
    close();
    process.exit(0);
  });
}
