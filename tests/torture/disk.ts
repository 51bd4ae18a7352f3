/**
 * A story told once for every write and sync of its files, with that one failing: whoever asked hears that it was done, or in plain words
 * that it was not, or that nobody knows; what stands after a start without the fault is that; and sent again it stands once.
 */
import { cp, mkdtemp, readdir, rm, stat } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { jpeg } from "../http/support/pictures.js";
import { diskOf, type Failure } from "./failing.js";
import { type Program, type Served, served } from "./server.js";
import { type FreshShop, freshShop, opened } from "./shopFile.js";
import { faultsIn, type Told } from "./standing.js";
import { everything } from "./statements.js";
import { type Answered, isDone, MAKINGS, type Making, pressing, type Shop, SORTS, type Sort, sent } from "./writes.js";

/** Its key too: no two acts have the same. */
const markOf = (act: string): string => `${act} mark`;
const HAND = { by: "Tamsin Oakhollow" };
type Body = Readonly<Record<string, unknown>>;

const read = async (url: string, path: string): Promise<Body> => (await (await fetch(`${url}/api/${path}`)).json()) as Body;
const today = () => new Date().toISOString().slice(0, 10);

const posting =
  (what: (shop: Shop, url: string) => Promise<readonly [string, Body]>): Making =>
  async (mark, shop, url) => {
    const [path, body] = await what(shop, url);
    const headers = { "content-type": "application/json", "idempotency-key": mark };
    return (again) => sent(`${again}/api/${path}`, JSON.stringify(body), headers);
  };

const paying = (what: "deposit" | "due"): Making =>
  posting(async ({ draftJob }, url) => {
    const { owed } = (await read(url, `jobs/${draftJob}/standing`)) as { readonly owed: Body };
    return [`jobs/${draftJob}/payments`, { ...HAND, for: "balance", amount: owed[what], on: today(), how: "card" }];
  });

/** As long as a log grows. */
const LONG_LOG = "entry after many";

/** In this order, each on what the one before has left. */
const STORY: Readonly<Record<string, Making>> = {
  "goods by API": MAKINGS["goods by API"],
  "entry by page": MAKINGS["entry by page"],
  "extra fault": MAKINGS["extra fault"],
  [LONG_LOG]: MAKINGS["entry by API"],
  "new job": MAKINGS["new job"],
  "draft saved": MAKINGS["draft saved"],
  "photo added":
    async (mark, { draftJob }) =>
    async (url) => {
      const headers = { "content-type": "image/jpeg", "idempotency-key": mark };
      return answered(
        await fetch(`${url}/api/jobs/${draftJob}/photos?of=intake`, { method: "POST", body: Buffer.from(jpeg()), headers }),
      );
    },
  "estimate issued": pressing(
    ({ draftJob }) => `/jobs/${draftJob}/issue`,
    "Issue revision 1",
    () => HAND,
  ),
  "answer recorded": posting(async ({ draft }) => [
    `estimates/${draft}/agreements`,
    { answer: "agreed", by: "Orla Thistlewick", channel: "e-mail", recordedBy: HAND.by, writing: "her e-mail" },
  ]),
  "deposit paid": paying("deposit"),
  "job closed": posting(async ({ draftJob }) => [
    `jobs/${draftJob}/close-outs`,
    {
      ...{ ...HAND, closedOn: today(), untouched: { all: "done, not timed" }, unlogged: "none used", payments: [] },
      ...{ warrantyDays: 90, oldParts: { is: "returned" } },
    },
  ]),
  "balance paid": paying("due"),
};

export const ACTS = Object.keys(STORY);

async function answered(answer: Response): Promise<Answered> {
  const { status, headers } = answer;
  const retryAfter = headers.get("retry-after") ?? undefined;
  return { status, text: await answer.text(), replayed: false, location: undefined, retryAfter };
}

/** Milliseconds that an answer may take: the five seconds a lock is waited for, and as long again. */
const PATIENCE = 15_000;

interface Came {
  readonly calls: number;
  readonly heard: Readonly<Record<string, number>>;
  readonly faults: readonly string[];
}

export interface Failed {
  /** Of each act and each way to fail: calls that failed in turn, and what was heard how often. */
  readonly told: Record<string, Record<string, Came>>;
  readonly faults: string[];
}

export interface Wanted {
  readonly acts?: readonly string[];
  readonly ways: readonly Failure[];
  readonly program: Program;
  /** Each of so many calls; 1: every one. */
  readonly step?: number;
  /** Of the ways that take a server for each call. */
  readonly stepOfKills?: number;
  /** Each as soon as it is known. */
  readonly tell?: (act: string, how: Failure, came: Came) => void;
}

export async function failedCallByCall({
  acts = ACTS,
  ways,
  program,
  step = 1,
  stepOfKills = step,
  tell,
}: Wanted): Promise<Failed> {
  const told: Failed["told"] = {};
  const faults: string[] = [];
  const shop = await freshShop();
  const stood = await mkdtemp(join(tmpdir(), "ohmwright-stood-"));
  try {
    const last = Math.max(...acts.map((act) => ACTS.indexOf(act)));
    for (const act of ACTS.slice(0, last + 1)) {
      await copied(shop.folder, stood);
      if (act === LONG_LOG) await logged(shop, stood);
      const clean = await undisturbed(shop, act, program);
      if (acts.includes(act))
        for (const how of ways) {
          const by = how.startsWith("killed") || how === "read-only" ? stepOfKills : step;
          const way = await failing({ shop, stood, act, program, how, step: act === LONG_LOG ? by * 7 : by, clean });
          told[act] = { ...told[act], [how]: way };
          tell?.(act, how, way);
          faults.push(...way.faults.map((fault) => `${act}, ${how}: ${fault}`));
        }
      if (act === ACTS[last]) break;
      await copied(stood, shop.folder);
      await undisturbed(shop, act, program);
    }
  } finally {
    await shop.gone();
    await rm(stood, { recursive: true, force: true });
  }
  return { told, faults };
}

/** What stands before an act and after it. */
interface Clean {
  readonly before: string;
  readonly rows: string;
}

async function undisturbed(shop: FreshShop, act: string, program: Program): Promise<Clean> {
  const server = await served(shop.folder, program);
  try {
    const send = await STORY[act]!(markOf(act), shop.shop, server.url);
    const before = (await standing(shop)).all;
    const answer = await send(server.url);
    if (!isDone(answer)) throw new Error(`${act}: ${answer.status} ${answer.text.slice(0, 400)}`);
    return { before, rows: (await standing(shop)).rows };
  } finally {
    await server.kill();
    await settled(shop);
  }
}

/** Looks into files as they were left that moment: nothing that has them open is disturbed. */
async function beside<T>(shop: FreshShop, look: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-left-"));
  try {
    await copied(shop.folder, folder);
    return await look(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

const standing = (shop: FreshShop) =>
  beside(shop, async (folder) => {
    const { db, close } = await opened({ folder });
    try {
      return { all: await everything(db), rows: await rowsOf(db) };
    } finally {
      close();
    }
  });

const faultsOf = (shop: FreshShop, done: Told["done"] = []) =>
  beside(shop, (folder) => faultsIn(folder, shop.shop, { done, open: [] }, shop.before));

async function rowsOf(db: Parameters<typeof everything>[0]): Promise<string> {
  const { rows } = await db.run("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name");
  const counts: string[] = [];
  for (const { name } of rows) {
    const { rows: counted } = await db.run(`SELECT count(*) AS n FROM "${name}"`);
    counts.push(`${name} ${counted[0]!.n}`);
  }
  return counts.join("\n");
}

/** With a log so long that the next write has it written back into the database; what is kept is the same. */
async function logged(shop: FreshShop, stood: string): Promise<void> {
  const { db, close } = await opened(shop);
  await db.run("PRAGMA wal_autocheckpoint = 0");
  // A thousand pages, by SQLite's default: https://www.sqlite.org/wal.html#ckpt
  while ((await stat(join(shop.folder, "ohmwright.db-wal"))).size < 990 * 4120) await db.run("VACUUM");
  await copied(shop.folder, stood);
  close();
  await copied(stood, shop.folder);
}

/** One file, with nothing beside it. */
async function settled(shop: FreshShop): Promise<void> {
  const { db, close } = await opened(shop);
  await db.run("PRAGMA wal_checkpoint(TRUNCATE)");
  close();
}

/** All of a folder of data, but what every process makes anew. */
async function copied(from: string, to: string): Promise<void> {
  for (const name of await readdir(to)) await rm(join(to, name), { recursive: true });
  await cp(from, to, { recursive: true, filter: (path) => !path.endsWith("-shm") });
}

interface Way {
  readonly shop: FreshShop;
  /** A folder of it as it stands before the act. */
  readonly stood: string;
  readonly act: string;
  readonly program: Program;
  readonly how: Failure;
  readonly step: number;
  readonly clean: Clean;
}

/** As long as nothing was done the next call fails on the same server, at the same request sent again; then on a fresh one. */
async function failing({ shop, stood, act, program, how, step, clean }: Way) {
  const [faults, heard]: [string[], Record<string, number>] = [[], {}];
  const done = (SORTS as readonly string[]).includes(act) ? [{ sort: act as Sort, mark: markOf(act) }] : [];
  const kills = how.startsWith("killed");
  let calls = 0;
  for (let nth = 1, last = false; !last; ) {
    await copied(stood, shop.folder);
    const disk = diskOf(shop.folder);
    let server = await served(shop.folder, program, disk.env);
    const wrong = (what: string) => faults.push(`call ${nth}: ${what}`);
    try {
      const send = await STORY[act]!(markOf(act), shop.shop, server.url);
      for (let undone = true; undone && !last; nth += step) {
        disk.fail(how, nth);
        const first = await inTime(send(server.url));
        const came = disk.came();
        const health = first === "killed" ? undefined : await healthOf(server);
        disk.mend();
        last = came.made < nth && first !== "killed";
        if (!last) calls += 1;
        const name = typeof first === "string" ? first : nameOf(first);
        if (!last) heard[name] = (heard[name] ?? 0) + 1;
        for (const what of amiss(first, last ? undefined : how, came.failed, health)) wrong(what);
        const left = await standing(shop);
        const is = left.all === clean.before ? "before" : left.rows === clean.rows ? "after" : "neither";
        if (is === "neither") wrong(`heard ${name}, and something between stands`);
        if (name === "done" && is === "before") wrong("said to be done, and does not stand");
        if (name === "not done" && is === "after") wrong("said to have changed nothing, and stands");
        if (is !== "before") for (const fault of await faultsOf(shop)) wrong(`left with ${fault}`);
        undone = is === "before" && !kills && how !== "read-only" && first !== "killed";
        if (undone) continue;

        if (first === "killed") {
          await server.gone;
          server = await served(shop.folder, program);
        }
        // The connection that was opened for reading alone is given up by who meets it first.
        if (how === "read-only") await inTime(send(server.url));
        const again = await inTime(send(server.url));
        if (typeof again === "string") wrong(`sent again: ${again}`);
        // What was issued says so to the same form: that is an answer too.
        else if (!isDone(again) && !(is === "after" && again.status === 409))
          wrong(`sent again: ${again.status} ${again.text.slice(0, 300)}`);
        const now = await healthOf(server);
        if (now !== "ok") wrong(`well again, and health says ${now}`);
        await server.kill();
        for (const fault of await faultsOf(shop, done)) wrong(fault);
        const { rows } = await standing(shop);
        if (rows !== clean.rows) wrong(`sent again it stands otherwise: ${differing(rows, clean.rows)}`);
        if ((await readdir(join(shop.folder, "photos")).catch(() => [])).some((each) => each.endsWith(".part") && !kills))
          wrong("half of a photo is left");
      }
      if (/^\s+at .*:\d+:\d+/m.test(server.said())) wrong(`a stack in the log: ${server.said().slice(0, 300)}`);
    } finally {
      await server.kill();
      disk.close();
    }
  }
  return { calls, heard, faults };
}

const inTime = (answer: Promise<Answered>): Promise<Answered | "killed" | "no answer"> =>
  Promise.race([answer.catch(() => "killed" as const), pause(PATIENCE, "no answer" as const)]);

async function healthOf({ url }: Served): Promise<string> {
  const answer = await inTime(fetch(`${url}/health`).then(answered));
  if (typeof answer === "string") return answer;
  const { status, database } = JSON.parse(answer.text) as { readonly status: string; readonly database: string };
  return status === "ok" ? status : database;
}

const nameOf = (answer: Answered): string =>
  isDone(answer)
    ? "done"
    : answer.status !== 503
      ? String(answer.status)
      : /may or may not|outcome-unknown/.test(answer.text)
        ? "nobody knows"
        : "not done";

/** What is wrong with how it was told. */
function amiss(
  answer: Answered | "killed" | "no answer",
  how: Failure | undefined,
  failed: number,
  health: string | undefined,
): readonly string[] {
  if (how?.startsWith("killed")) return answer === "killed" ? [] : ["was not killed"];
  if (typeof answer === "string") return [answer === "killed" ? "the server is gone" : answer];
  if (isDone(answer)) return [];
  const faults: string[] = [];
  if (failed === 0) faults.push(`refused for no reason: ${answer.status}`);
  if (answer.status !== 503)
    faults.push(`not 503 but ${answer.status} ${answer.text.replaceAll(/<style.*?<\/style>/gs, "").slice(0, 400)}`);
  if (answer.status === 503 && answer.retryAfter === undefined) faults.push("no Retry-After");
  if (/\n\s+at |node_modules|SQLITE_|errno/.test(answer.text)) faults.push(`tells what is inside: ${answer.text.slice(0, 200)}`);
  const why = {
    full: /is full/,
    "cut short": /is full/,
    "read-only": /cannot be (written to|opened)|fails to read or write/,
  }[how as string];
  if (why && nameOf(answer) === "not done" && !why.test(answer.text)) faults.push(`does not say why: ${answer.text.slice(-300)}`);
  if (how !== "fails once" && health === "ok") faults.push("refused, and health says all is well");
  return faults;
}

function differing(rows: string, clean: string): string {
  const others = new Set(clean.split("\n"));
  return rows
    .split("\n")
    .filter((row) => !others.has(row))
    .join(", ");
}
