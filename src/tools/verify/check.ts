/** What `npm run verify` answers to its words and the environment. */
import { existsSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { parseArgs } from "node:util";
import { mismatchText } from "../../acts/checked/mismatch.js";
import { connectWeb, UNHURRIED } from "../../records/connectWeb.js";
import { fileTrouble } from "../../records/fileTrouble.js";
import { photoFolder } from "../../records/photoFolder.js";
import { DatabaseNewer, NEWER_CODE, refuseNewer } from "../migrateDatabase.js";
import { wholeFile } from "../wholeFile.js";
import { verifyShop } from "./verifyShop.js";

const HELP = `npm run verify                                     check the records in ./data (or OHMWRIGHT_DATA)
npm run verify -- --data DIR                       those in DIR
npm run verify -- --head J-2026-0001=12-3f9a2b7c1d0e4f56
                                                   and that this head, read off a document, is in the job's chain
LIBSQL_URL=libsql://... npm run verify             those of a hosted database
npm run verify -- -h, --help                       this
Answers 0 when everything matches, 1 when something does not, 2 when it could not be checked, 3 when the database is of a newer version.`;

/** `said` goes to standard output, or with code 2 or 3 to standard error. */
export interface Checked {
  readonly code: 0 | 1 | 2 | 3;
  readonly said: string;
}

const unchecked = (said: string): Checked => ({ code: 2, said });

export async function check(words: readonly string[], env: NodeJS.ProcessEnv): Promise<Checked> {
  const options = readOptions(words);
  if (options instanceof Error) return unchecked(`${options.message}\n\n${HELP}`);
  if (options.help) return { code: 0, said: HELP };
  const heads = new Map<string, string[]>();
  for (const given of options.head) {
    const [, number, head] = /^(J-\d{4}-\d{4,})=(\d+-[0-9a-f]+)$/i.exec(given) ?? [];
    if (!number || !head)
      return unchecked(
        `--head is '${given}'; give a job's number and the head from its paper, as J-2026-0001=12-3f9a2b7c1d0e4f56.`,
      );
    heads.set(number.toUpperCase(), [...(heads.get(number.toUpperCase()) ?? []), head.toLowerCase()]);
  }

  const hosted = options.data === undefined ? env.LIBSQL_URL : undefined;
  const file = resolve(options.data ?? env.OHMWRIGHT_DATA ?? "data", "ohmwright.db");
  if (!hosted && !existsSync(file)) return unchecked(`There is no database at ${file}; say where it is with --data.`);
  let close = (): void => undefined;
  try {
    if (hosted) {
      const db = connectWeb(hosted, env.LIBSQL_AUTH_TOKEN, UNHURRIED);
      await refuseNewer(db);
      return asChecked(await verifyShop(db, heads));
    }
    const opened = await wholeFile(file);
    close = opened.close;
    await refuseNewer(opened.db);
    return asChecked(await verifyShop(opened.db, heads, { file: true, photos: photoFolder(join(dirname(file), "photos")) }));
  } catch (error) {
    if (error instanceof DatabaseNewer) return { code: NEWER_CODE, said: error.message };
    return unchecked(`The records could not be read: ${fileTrouble(error, file) ?? rootOf(error).message}`);
  } finally {
    close();
  }
}

/** Drizzle wraps what a statement fails with. */
function rootOf(error: unknown): Error {
  let at = error as Error;
  while (at.cause instanceof Error) at = at.cause;
  return at;
}

const MOST_SAID = 20;

function asChecked({ mismatch, others = [], jobs, revisions, events, erased }: Awaited<ReturnType<typeof verifyShop>>): Checked {
  if (mismatch) {
    const all = [mismatch, ...others];
    const said = all.slice(0, MOST_SAID).map(({ job, what }) => `${job ? `${job}: ` : ""}${mismatchText(what)}`);
    return { code: 1, said: [...said, ...(all.length > MOST_SAID ? [`And ${all.length - MOST_SAID} more.`] : [])].join("\n") };
  }
  const matches = `${jobs} jobs, ${revisions} revisions, ${events} events: everything matches.`;
  if (erased === 0) return { code: 0, said: matches };
  const rest = `Of ${erased} of these jobs what told of the owner was erased: the rest is as the erasure left it.`;
  return { code: 0, said: `${matches}\n${rest}` };
}

function readOptions(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      options: {
        data: { type: "string" },
        head: { type: "string", multiple: true, default: [] },
        help: { type: "boolean", short: "h", default: false },
      },
    }).values;
  } catch (error) {
    return error as Error;
  }
}
