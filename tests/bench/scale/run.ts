/**
 * `npm run scale`: the same pages over 1,000 jobs, over 10,000 and over 100,000, with twenty log rows each, in one file; beside them as
 * many open ones as ten people have at most. Ratios to the first are what to compare.
 * `npm run scale -- N` ends with another number than 100,000. Needs some gigabytes of room for temporary files.
 */
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sql } from "drizzle-orm";
import { createApp } from "../../../src/http/app/app.js";
import { connectFile } from "../../../src/records/connectFile.js";
import type { Database } from "../../../src/records/database.js";
import { loadDemo } from "../../../src/tools/demo.js";
import { migrateDatabase } from "../../../src/tools/migrateDatabase.js";
import { grow, template } from "./grow.js";

const LAST = Number(process.argv[2] ?? 100_000);
const SIZES = [...[1_000, 10_000].filter((size) => size < LAST), LAST];
const OPEN = 300;
const PAGES = [
  "/",
  "/?state=closed",
  "/?state=answered",
  "/?state=waiting+for+parts",
  "/?state=declined",
  // An owner, an owner's job by a piece of its number, a serial, a piece of a serial, and a word that stands in every job.
  "/find?q=ithithith",
  "/find?q=ithithith+777",
  "/find?q=HD57-000777",
  "/find?q=000777",
  "/find?q=snare",
  "/jobs/T-job-777",
  "/jobs/T-job-777/trail",
  "/parts",
  "/api/jobs?limit=50",
  "/api/search?q=ottilie+ithith",
] as const;
const BOARDS = ["/looking-back"] as const;
/** By acts, as they are done one after the other. */
const WHOLE = "a small job written, issued, agreed, logged and closed";
const TIMES = 7;

const folder = mkdtempSync(join(tmpdir(), "ohmwright-scale-"));
const path = join(folder, "shop.db");
const { db, close } = await connectFile(`file:${path}`);
try {
  await migrateDatabase(db);
  const demo = JSON.parse(await readFile("fixtures/demo/shop.json", "utf8"));
  await loadDemo(db, demo, "2026-11-25T09:00:00.000Z");
  const like = demo.jobs.at(-1).id;
  await template(db, like, "O");
  await grow(db, 0, OPEN, "O");
  await template(db, like, "T");
  const taken: ReadonlyMap<string, number>[] = [];
  for (const [index, size] of SIZES.entries()) {
    await grown(SIZES[index - 1] ?? 0, size);
    taken.push(new Map([...(await times(db)), [WHOLE, await median((time) => template(db, like, `W${size}-${time}`))]]));
  }
  const [{ rows }] = (await db.all<{ rows: number }>(sql`SELECT count(*) AS rows FROM work_log`)) as [{ rows: number }];
  const count = (of: number) => of.toLocaleString("en");
  console.log(`\n${count(LAST)} jobs, ${count(rows)} log rows, ${Math.round(statSync(path).size / 1e6)} MB\n`);
  const row = (cells: readonly string[]) => console.log(`| ${cells.join(" | ")} |`);
  const [first, ...larger] = taken as [ReadonlyMap<string, number>, ...ReadonlyMap<string, number>[]];
  row([
    "page",
    ...SIZES.map((size) => `ms at ${count(size)}`),
    ...SIZES.slice(1).map((size) => `${count(size)} : ${count(SIZES[0]!)}`),
  ]);
  row(Array.from({ length: 2 * SIZES.length }, () => "---"));
  for (const page of [...PAGES, ...BOARDS, WHOLE]) {
    const ratios = larger.map((at) => (at.get(page)! / first.get(page)!).toFixed(2));
    row([page, ...taken.map((at) => at.get(page)!.toFixed(1)), ...ratios]);
  }
} finally {
  close();
  rmSync(folder, { recursive: true });
}

async function grown(from: number, to: number): Promise<void> {
  const began = performance.now();
  for (let at = from; at < to; at += 10_000) await grow(db, at, Math.min(to, at + 10_000));
  console.log(`${from} to ${to} jobs put on record in ${((performance.now() - began) / 1000).toFixed(1)} s`);
}

/** The median in milliseconds of some calls after the first. */
async function median(call: (time: number) => Promise<unknown>): Promise<number> {
  const all: number[] = [];
  for (let time = 0; time <= TIMES; time += 1) {
    const began = performance.now();
    await call(time);
    if (time > 0) all.push(performance.now() - began);
  }
  return all.sort((a, b) => a - b)[Math.floor(TIMES / 2)]!;
}

async function times(of: Database): Promise<ReadonlyMap<string, number>> {
  const app = createApp({
    openDatabase: () => of,
    assets: {},
    guard: "loopback",
    secretOf: () => undefined,
    addressOf: () => "127.0.0.1",
    write: () => {},
  });
  const taken = new Map<string, number>();
  for (const page of [...PAGES, ...BOARDS]) {
    const once = async (time: number) => {
      const answer = await app.request(page, {
        headers: { host: "localhost", accept: page.startsWith("/api") ? "*/*" : "text/html" },
      });
      await answer.text();
      if (answer.status !== 200 && time === 0) console.error(`${page}: ${answer.status}`);
    };
    taken.set(page, await median(once));
  }
  return taken;
}
