/**
 * The program as wrangler would send it, in workerd, over the demo shop served as libSQL by this process. Processor time is that of all
 * threads of workerd, as the kernel counts it (/proc), so what the database takes is not in it, and the platform's own part of a request is:
 * an empty Worker's row tells it.
 */
import { spawn } from "node:child_process";
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Readable } from "node:stream";
import { serializeSigned } from "hono/utils/cookie";
import { Miniflare } from "miniflare";
import { connectFile } from "../../../src/records/connectFile.js";
import { newSession, sessions } from "../../../src/records/sessions.js";
import { joining, newStaff, staff } from "../../../src/records/staff.js";
import { fillOnce } from "../../../src/tools/firstShop.js";
import { startEndpoint } from "../../../src/tools/libsqlEndpoint.js";
import { migrateDatabase } from "../../../src/tools/migrateDatabase.js";
import { wrangler } from "../../../src/tools/wrangler.js";
import { type Answer, type Asked, hungUp, ownersCookie, send, whatIsAsked } from "./asked.js";
import { everyGet, type Looked } from "./everyGet.js";

/** Processor time in ms. */
export interface InWorkerd {
  readonly name: string;
  /** The first request of a fresh isolate. */
  readonly first: number;
  readonly p50: number;
  readonly p99: number;
}

const SECRET = "the secret of the bench, which is long enough";
const WARM = 40;
const FRESH = 3;
const EMPTY = 'export default { fetch: () => new Response("nothing") };';

export interface EveryRoute {
  readonly start: number;
  readonly rows: readonly InWorkerd[];
  /** Routes that show nothing to the bench. */
  readonly none: readonly string[];
}

/**
 * What is asked by HTTP too, `times` times one after the other, then each other GET route, fewer times and first once; and the time that
 * starting takes beyond an empty Worker's start. Each row is told as soon as it is known.
 */
export async function everyRoute(times: number, tell: (row: InWorkerd) => void): Promise<EveryRoute> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-bench-"));
  const file = `${folder}/ohmwright.db`;
  const cookie = await filled(file);
  const endpoint = await startEndpoint(file);
  try {
    const script = await sent(folder);
    const start =
      Math.min(...(await each(FRESH, () => started(script)))) - Math.min(...(await each(FRESH, () => started(EMPTY))));
    const open = (program: string) => opened(program, endpoint.url, cookie);
    const owners = await owned(await open(script), cookie);
    const list = await whatIsAsked(owners);
    const rows: InWorkerd[] = [];
    const row = async (...of: Parameters<typeof measured>) => {
      rows.push(await measured(...of));
      tell(rows.at(-1)!);
    };
    await row({ name: "an empty Worker", path: "/" }, () => open(EMPTY), times, FRESH);
    for (const asked of list) await row(asked, () => open(script), times, FRESH);
    const looking = await open(script);
    const byPath = (path: string, name = path): Asked => ({
      ...{ name, path },
      headers: { accept: path.startsWith("/api/") ? "*/*" : "text/html", cookie: owners },
    });
    const { at, none } = await everyGet((path) => looking.look(byPath(path)));
    await looking.stop();
    for (const [name, path] of at)
      if (!list.some((asked) => asked.path === path)) await row(byPath(path, name), () => open(script), times / 8, 1);
    return { start, rows, none };
  } finally {
    hungUp();
    await endpoint.stop();
    await rm(folder, { recursive: true });
  }
}

interface Opened {
  readonly url: string;
  readonly ask: (asked: Asked) => Promise<Answer>;
  readonly look: (asked: Asked) => Promise<Looked>;
  readonly cpuMs: () => Promise<number>;
  readonly stop: () => Promise<void>;
}

async function owned(worker: Opened, cookie: string): Promise<string> {
  const owners = await ownersCookie(worker.url, cookie);
  await worker.stop();
  return owners;
}

async function measured(asked: Asked, open: () => Promise<Opened>, times: number, isolates: number): Promise<InWorkerd> {
  const firsts: number[] = [];
  let worker: Opened | undefined;
  for (let left = isolates; left > 0; left -= 1) {
    await worker?.stop();
    worker = await open();
    firsts.push(await cpuOf(worker, asked));
  }
  const fresh = worker!;
  await each(Math.min(WARM, times), () => cpuOf(fresh, asked));
  const taken = (await each(times, () => cpuOf(fresh, asked))).sort((a, b) => a - b);
  await fresh.stop();
  const at = (share: number) => taken[Math.min(taken.length - 1, Math.floor(share * taken.length))]!;
  return { name: asked.name, first: Math.min(...firsts), p50: at(0.5), p99: at(0.99) };
}

async function cpuOf({ ask, cpuMs }: Opened, asked: Asked): Promise<number> {
  const began = await cpuMs();
  const answer = await ask(asked);
  if (answer.status !== 200) throw new Error(`${asked.name} in workerd: ${answer.status}`);
  return (await cpuMs()) - began;
}

async function started(script: string): Promise<number> {
  const worker = await opened(script, "", "");
  const spent = await worker.cpuMs();
  await worker.stop();
  return spent;
}

async function opened(script: string, database: string, cookie: string): Promise<Opened> {
  const before = new Set(await workerds());
  const worker = new Miniflare({
    ...{ modules: true, script, compatibilityDate: "2026-04-26", compatibilityFlags: ["nodejs_compat"] },
    // Its own lines of each request.
    handleRuntimeStdio: (...streams: readonly Readable[]) => void streams.map((stream) => stream.resume()),
    bindings: { OHMWRIGHT_SECRET: SECRET, ...(database && { LIBSQL_URL: database }) },
  });
  const url = (await worker.ready).href;
  const pid = (await workerds()).find((each) => !before.has(each));
  if (pid === undefined) throw new Error("No workerd was started.");
  const withCookies = (asked: Asked) => ({
    ...asked,
    headers: { ...asked.headers, cookie: [cookie, asked.headers?.cookie].filter(Boolean).join("; ") },
  });
  return {
    url,
    ask: (asked) => send(url, withCookies(asked)),
    look: async (asked) => {
      const answer = await fetch(new URL(asked.path, url), { headers: withCookies(asked).headers, redirect: "manual" });
      return { status: answer.status, text: await answer.text() };
    },
    cpuMs: () => processorTime(pid),
    stop: () => worker.dispose(),
  };
}

/** Those that this process has started. */
async function workerds(): Promise<number[]> {
  const found: number[] = [];
  for (const pid of (await readdir("/proc")).filter((name) => /^\d+$/.test(name))) {
    const stat = await readFile(`/proc/${pid}/stat`, "utf8").catch(() => "");
    if (/\(workerd\) \S+ (\d+)/.exec(stat)?.[1] === String(process.pid)) found.push(Number(pid));
  }
  return found;
}

/** Linux: Documentation/scheduler/sched-stats.rst, schedstat of each thread: time on a processor in ns (from memory). */
async function processorTime(pid: number): Promise<number> {
  let ns = 0;
  for (const thread of await readdir(`/proc/${pid}/task`)) {
    const stat = await readFile(`/proc/${pid}/task/${thread}/schedstat`, "utf8").catch(() => "0");
    ns += Number(stat.split(" ")[0]);
  }
  return ns / 1e6;
}

/** The demo shop after its year, and the cookie of its manager. */
async function filled(file: string): Promise<string> {
  const { db, close } = await connectFile(`file:${file}`);
  await migrateDatabase(db);
  const now = new Date();
  await fillOnce(db, "year", now);
  const at = now.toISOString();
  await staff.adding(db, newStaff("staff-of-the-bench", "Bench", "manager", at));
  await joining(db, "staff-of-the-bench", at);
  const { row, token } = await newSession({ staffId: "staff-of-the-bench", how: "passkey", agent: "the bench" }, at);
  await sessions.adding(db, row);
  close();
  return (await serializeSigned("ohmwright-staff", token, SECRET)).split(";")[0]!;
}

/** As `npm run size` has it: built by wrangler, not sent. */
async function sent(folder: string): Promise<string> {
  const { path, env } = wrangler();
  const args = [path, "deploy", "--dry-run", "--env", "production", "--outdir", join(folder, "sent")];
  const status = await new Promise((done) => spawn(process.execPath, args, { stdio: "ignore", env }).on("close", done));
  if (status !== 0) throw new Error("wrangler did not build the Worker.");
  return readFile(join(folder, "sent", "worker.js"), "utf8");
}

async function each<T>(times: number, work: () => Promise<T>): Promise<T[]> {
  const all: T[] = [];
  for (let left = times; left > 0; left -= 1) all.push(await work());
  return all;
}
