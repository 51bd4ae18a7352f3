/** A large shop with its papers, backed up while it is written to and put back: seconds, and the most memory that was resident, by command and by HTTP. */
import { spawn } from "node:child_process";
import { createReadStream, createWriteStream, readFileSync } from "node:fs";
import { mkdir, mkdtemp, readFile, rm, stat } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { setTimeout as pause } from "node:timers/promises";
import { sql } from "drizzle-orm";
import { connectFile } from "../../src/records/connectFile.js";
import type { Database } from "../../src/records/database.js";
import { type Demo, loadDemo } from "../../src/tools/demo.js";
import { migrateDatabase } from "../../src/tools/migrateDatabase.js";
import { grow, template } from "../bench/scale/grow.js";
import { type Program, type Served, served } from "./server.js";

export interface Measured {
  readonly what: string;
  readonly seconds: number;
  /** Megabytes resident at most. */
  readonly peak: number;
  /** Megabytes resident before, of a server. */
  readonly before?: number;
  readonly said: string;
}

const kilobytes = (pid: number, of: "VmHWM" | "VmRSS"): number => {
  try {
    return Number(new RegExp(`${of}:\\s+(\\d+)`).exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1] ?? 0);
  } catch {
    return 0;
  }
};
const MB = 1024;
const seconds = (from: number): number => (performance.now() - from) / 1000;

/** A command of the project to its end. */
async function ran(tool: "backup" | "restore", ...words: readonly string[]): Promise<Measured & { readonly code: number }> {
  const env = { ...process.env, LIBSQL_URL: "", OHMWRIGHT_DATA: "" };
  // As package.json runs it.
  const { scripts } = JSON.parse(await readFile("package.json", "utf8")) as { scripts: Record<string, string> };
  const [, ...flags] = scripts[tool]!.split(" ");
  const from = performance.now();
  const child = spawn(process.execPath, [...flags, ...words], { env });
  let said = "";
  for (const stream of [child.stdout, child.stderr]) stream.on("data", (chunk: Buffer) => (said += chunk));
  let [over, peak] = [false, 0];
  const code = new Promise<number>((resolve) => child.once("close", (ended) => resolve(ended ?? -1))).finally(
    () => (over = true),
  );
  while (!over) {
    peak = Math.max(peak, kilobytes(child.pid!, "VmHWM"));
    await pause(20);
  }
  return { what: `npm run ${tool}`, seconds: seconds(from), peak: peak / MB, said: said.trim(), code: await code };
}

async function largeShop(folder: string, jobs: number): Promise<void> {
  await mkdir(folder);
  const { db, close } = await connectFile(`file:${join(folder, "ohmwright.db")}`);
  await migrateDatabase(db);
  const demo: Demo = JSON.parse(await readFile("fixtures/demo/shop.json", "utf8"));
  await loadDemo(db, demo, "2026-11-25T09:00:00.000Z");
  await template(db, demo.jobs.at(-1)!.id);
  for (let at = 0; at < jobs; at += 500) await grow(db, at, Math.min(jobs, at + 500), "T", true);
  close();
}

/** An owner changed, again and again, until told to stop; answers how many. */
async function written(db: Database, over: () => boolean): Promise<number> {
  let n = 0;
  for (; !over(); n += 1) {
    await db.run(sql`UPDATE owners SET notes = ${`write ${n}`}, version = version + 1 WHERE id = 'T-owner'`);
    await pause(50);
  }
  return n;
}

async function whileWriting<T>(folder: string, run: () => Promise<T>): Promise<readonly [T, number]> {
  const { db, close } = await connectFile(`file:${join(folder, "ohmwright.db")}`);
  let over = false;
  const writing = written(db, () => over);
  const done = await run().finally(() => {
    over = true;
  });
  const writes = await writing;
  close();
  return [done, writes];
}

async function overHttp(what: string, server: Served, run: () => Promise<string>): Promise<Measured> {
  const before = kilobytes(server.pid, "VmRSS") / MB;
  const from = performance.now();
  const said = await run();
  return { what, seconds: seconds(from), peak: kilobytes(server.pid, "VmHWM") / MB, before, said };
}

/** Megabytes; of a server beyond what it had. */
const MOST_RESIDENT = 200;

/** `program` serves a folder. */
export async function backedUp(jobs: number, program: Program, say: (one: Measured) => void): Promise<readonly string[]> {
  const faults: string[] = [];
  const told = (one: Measured) => {
    say(one);
    const took = one.peak - (one.before ?? 0);
    if (took > MOST_RESIDENT) faults.push(`${one.what}: ${took.toFixed(0)} MB, more than ${MOST_RESIDENT}`);
  };
  const work = await mkdtemp(join(tmpdir(), "ohmwright-backups-"));
  const at = (name: string) => join(work, name);
  try {
    await largeShop(at("shop"), jobs);
    const size = async (name: string) => `${Math.round((await stat(at(name))).size / 1e6)} MB`;
    told({ what: `${jobs} jobs`, seconds: 0, peak: 0, said: await size("shop/ohmwright.db") });

    const [made, writes] = await whileWriting(at("shop"), () => ran("backup", at("one.gz"), "--data", at("shop")));
    told({ ...made, said: `${made.said.split("\n").at(-1)}; ${writes} writes meanwhile` });
    if (made.code !== 0) faults.push(`npm run backup: ${made.said}`);
    const back = await ran("restore", at("one.gz"), "--data", at("two"));
    told(back);
    // What the shop is made of does not match its chain, so 1.
    if (!/rows, \d+ jobs restored/.test(back.said)) faults.push(`npm run restore: ${back.said}`);

    const server = await served(at("shop"), program);
    const [got, more] = await whileWriting(at("shop"), () =>
      overHttp("GET /api/backup", server, async () => {
        const answer = await fetch(`${server.url}/api/backup`);
        await pipeline(Readable.fromWeb(answer.body as never), createWriteStream(at("http.gz")));
        return `${answer.status}, ${await size("http.gz")}`;
      }),
    );
    told({ ...got, said: `${got.said}; ${more} writes meanwhile` });
    await server.kill();

    await mkdir(at("empty"));
    const { db, close } = await connectFile(`file:${at("empty/ohmwright.db")}`);
    await migrateDatabase(db);
    close();
    const empty = await served(at("empty"), program);
    const put = await overHttp("POST /api/restore", empty, async () => {
      const answer = await fetch(`${empty.url}/api/restore`, {
        ...{ method: "POST", duplex: "half", body: Readable.toWeb(createReadStream(at("http.gz"))) },
        headers: { "content-type": "application/gzip", "content-length": String((await stat(at("http.gz"))).size) },
      } as never);
      return `${answer.status} ${(await answer.text()).slice(0, 200)}`;
    });
    told(put);
    if (!put.said.startsWith("200")) faults.push(`POST /api/restore: ${put.said}`);
    await empty.kill();
  } finally {
    await rm(work, { recursive: true, force: true });
  }
  return faults;
}
