/** A fresh demo shop over a file database, its app, and a clock that stands still until moved. */
import { copyFile, mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { type AppOptions, createApp } from "../../../src/http/app/app.js";
import { connectFile } from "../../../src/records/connectFile.js";
import type { Database } from "../../../src/records/database.js";
import { jobs } from "../../../src/records/jobs.js";
import { type Demo, loadDemo } from "../../../src/tools/demo.js";
import { put } from "../../records/support/put.js";
import { BASE, documented } from "./documented.js";
import { madeOnce, migratedFile } from "./madeOnce.js";

const START = "2026-11-25T09:00:00.000Z";

export const demo = async (): Promise<Demo> => JSON.parse(await readFile("fixtures/demo/shop.json", "utf8"));

/** A fixture of fixtures/demo. */
export const job = async (name: string): Promise<EstimateInput> =>
  JSON.parse(await readFile(`fixtures/demo/${name}.json`, "utf8"));

/** A job of the test shop, J-2025-0001, that has no estimate yet. */
/** Of the unit that this job is of too. */
const TAPE_ECHO = "01a1e8fd-0b20-7cb5-9019-4936cadd928a";
export const BARE_JOB = "bare-job";

async function loadedDemo(db: Database): Promise<Demo> {
  const content = await demo();
  await loadDemo(db, content, START);
  return content;
}

/** The demo shop and the bare job. */
export const demoFile = madeOnce(async (db) => {
  const { owners, jobs: visits } = await loadedDemo(db);
  const { unitId } = visits.find(({ id }) => id === TAPE_ECHO)!;
  await put(db, jobs, BARE_JOB, { ownerId: owners[0]!.id, unitId, arrivedOn: "2025-06-01" }, START);
}, migratedFile);

async function openDatabase(from: string): Promise<{ readonly db: Database; readonly close: () => Promise<void> }> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  await copyFile(from, `${folder}/shop.db`);
  const { db, close } = await connectFile(`file:${folder}/shop.db`);
  return {
    db,
    close: async () => {
      close();
      await rm(folder, { recursive: true });
    },
  };
}

/** Tables and nothing in them; close it at the end. */
export const emptyDatabase = async () => openDatabase((await migratedFile()).path);

/** The same, of this test's own. */
export async function freshDatabase(): Promise<Database> {
  const { db, close } = await emptyDatabase();
  onTestFinished(close);
  return db;
}

/** For tests that change nothing: open it once, close it at the end. */
export async function openShop(options: Partial<AppOptions> = {}, from?: string) {
  const { db, close } = await openDatabase(from ?? (await demoFile()).path);
  let now = new Date(START);
  const lines: string[] = [];
  const app = createApp({
    openDatabase: () => db,
    assets: { "/style-0123abcd.css": { type: "text/css", body: "body{}", etag: '"0123abcd"' } },
    guard: "loopback",
    secretOf: () => undefined,
    addressOf: () => "127.0.0.1",
    ...(options.guard !== "secret" && { originOf: () => BASE }),
    passphraseCost: { n: 16, r: 1, p: 1 },
    clock: () => now,
    write: (line) => lines.push(line),
    ...options,
  });
  const call = documented(app);
  return {
    db,
    app,
    lines,
    call,
    close,
    /** Sends JSON. */
    send: (method: string, path: string, body: unknown, headers: Record<string, string> = {}) =>
      call(path, { method, body: JSON.stringify(body), headers: { "content-type": "application/json", ...headers } }),
    pass: (milliseconds: number) => {
      now = new Date(now.getTime() + milliseconds);
    },
  };
}

/** A shop of this test's own. */
export async function shop(options: Partial<AppOptions> = {}, from?: string) {
  const opened = await openShop(options, from);
  onTestFinished(opened.close);
  return opened;
}
