/** npm run edge: the edge build in workerd on this machine, over a local file served as libSQL. Loopback only. */
import { spawn } from "node:child_process";
import { randomBytes } from "node:crypto";
import { mkdir } from "node:fs/promises";
import { resolve } from "node:path";
import { parseArgs } from "node:util";
import { connectFile } from "../records/connectFile.js";
import { build } from "./build.js";
import { fillOnce } from "./firstShop.js";
import { startEndpoint } from "./libsqlEndpoint.js";
import { leaveUnready, migrateDatabase } from "./migrateDatabase.js";
import { wrangler } from "./wrangler.js";

const PORT = 4780;
const HELP = `npm run edge                    the edge build on http://localhost:${PORT}/, with the demo shop on the first start
npm run edge -- --empty         a first start without the demo shop
npm run edge -- --data DIR      where the database is kept (otherwise ./data/edge)
npm run edge -- --port N        another port
npm run edge -- -h, --help      this
OHMWRIGHT_SECRET is made up when it is not set.`;

const say = (text: string) => process.stdout.write(`${text}\n`);

const options = parseArgs({
  options: {
    empty: { type: "boolean", default: false },
    data: { type: "string", default: "data/edge" },
    port: { type: "string", default: String(PORT) },
    help: { type: "boolean", short: "h", default: false },
  },
}).values;
if (options.help) {
  say(HELP);
  process.exit(0);
}
await build();
const folder = resolve(options.data);
await mkdir(folder, { recursive: true });
const file = `${folder}/ohmwright.db`;
const { db, close } = await connectFile(`file:${file}`);
await migrateDatabase(db).catch(leaveUnready);
const loaded = await fillOnce(db, options.empty ? "empty" : "demo", new Date());
close();
if (loaded) say(`${folder} was empty: the ${loaded} shop was loaded.`);

const endpoint = await startEndpoint(file);
const secret = process.env.OHMWRIGHT_SECRET ?? randomBytes(18).toString("base64url");
const { path, env } = wrangler();
const dev = spawn(
  process.execPath,
  [
    ...[path, "dev", "--ip", "127.0.0.1", "--port", options.port, "--show-interactive-dev-session=false"],
    ...["--var", `OHMWRIGHT_SECRET:${secret}`, "--var", `LIBSQL_URL:${endpoint.url}`],
  ],
  { stdio: "inherit", env },
);
say(`The edge build will be at http://localhost:${options.port}/. The secret to sign in with: ${secret}`);
for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => dev.kill(signal));
dev.on("exit", async (code) => {
  await endpoint.stop();
  process.exit(code ?? 0);
});
