/** npm run verify: recomputes what is on record and names the first thing that does not match. Changes nothing. */
import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { parseArgs } from "node:util";
import { connectFile } from "../records/connectFile.js";
import { connectWeb } from "../records/connectWeb.js";
import { mismatchText } from "./verify/mismatch.js";
import { verifyShop } from "./verify/verifyShop.js";

const HELP = `npm run verify                                     check the records in ./data (or OHMWRIGHT_DATA)
npm run verify -- --data DIR                       those in DIR
npm run verify -- --head J-2026-0001=12-3f9a2b7c1d0e4f56
                                                   and that this head, read off a document, is in the job's chain
LIBSQL_URL=libsql://... npm run verify             those of a hosted database
npm run verify -- -h, --help                       this
Answers 0 when everything matches, 1 when something does not, 2 when it could not be checked.`;

const say = (text: string) => process.stdout.write(`${text}\n`);

function leave(why: string): never {
  process.stderr.write(`${why}\n`);
  process.exit(2);
}

function readOptions() {
  try {
    return parseArgs({
      options: {
        data: { type: "string" },
        head: { type: "string", multiple: true, default: [] },
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
const heads = new Map<string, string[]>();
for (const given of options.head) {
  const [, number, head] = /^(J-\d{4}-\d{4,})=(\d+-[0-9a-f]+)$/i.exec(given) ?? [];
  if (!number || !head)
    leave(`--head is '${given}'; give a job's number and the head from its paper, as J-2026-0001=12-3f9a2b7c1d0e4f56.`);
  heads.set(number.toUpperCase(), [...(heads.get(number.toUpperCase()) ?? []), head.toLowerCase()]);
}

const hosted = options.data === undefined ? process.env.LIBSQL_URL : undefined;
const file = resolve(options.data ?? process.env.OHMWRIGHT_DATA ?? "data", "ohmwright.db");
if (!hosted && !existsSync(file)) leave(`There is no database at ${file}; say where it is with --data.`);
const db = hosted ? connectWeb(hosted, process.env.LIBSQL_AUTH_TOKEN) : (await connectFile(`file:${file}`)).db;

const verdict = await verifyShop(db, heads).catch((error: Error) =>
  leave(`The records could not be read: ${(error.cause as Error | undefined)?.message ?? error.message}`),
);
const { mismatch } = verdict;
if (mismatch) {
  say(`${mismatch.job ? `${mismatch.job}: ` : ""}${mismatchText(mismatch.what)}`);
  process.exit(1);
}
say(`${verdict.jobs} jobs, ${verdict.revisions} revisions, ${verdict.events} events: everything matches.`);
if (verdict.erased > 0)
  say(`Of ${verdict.erased} of these jobs what told of the owner was erased: the rest is as the erasure left it.`);
process.exit(0);
