/**
 * The files of a shop as a bad day leaves them: database cut short or with a byte changed, write-ahead log cut at and between its frames
 * or with a byte changed. What is acknowledged before the damage stands, whole; or whoever starts, or verifies, hears why not in a sentence.
 */
import { copyFile, mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { check } from "../../src/tools/verify/check.js";
import { unplain } from "./firstStart.js";
import { bundle, npmStart, served } from "./server.js";
import { freshShop, opened } from "./shopFile.js";
import { faultsIn } from "./standing.js";
import { everything } from "./statements.js";
import { isDone, SORTS, type Sort, type Write, write } from "./writes.js";

export interface Torn {
  /** By what was done to which file: how often what came of it. */
  readonly told: Record<string, Record<string, number>>;
  readonly faults: string[];
}

/** Bytes: SQLite's file format, 4.1 and 4.2, https://www.sqlite.org/fileformat2.html#walformat */
const LOG_HEAD = 32;
const FRAME_HEAD = 24;

/** A frame with the size of the database in it ends a transaction. */
function framesOf(log: Buffer) {
  const frame = FRAME_HEAD + log.readUInt32BE(8);
  const frames = [];
  for (let at = LOG_HEAD; at + frame <= log.length; at += frame)
    frames.push({ from: at, to: at + frame, commits: log.readUInt32BE(at + 4) > 0 });
  return frames;
}

const changed = (bytes: Buffer, at: number): Buffer => {
  const copy = Buffer.from(bytes);
  copy[at]! ^= 1;
  return copy;
};

function counting() {
  const torn: Torn = { told: {}, faults: [] };
  return {
    ...torn,
    came: (what: string, of: string) => {
      const tally = torn.told[what] ?? {};
      torn.told[what] = { ...tally, [of]: (tally[of] ?? 0) + 1 };
    },
  };
}

interface Log {
  readonly sorts?: readonly Sort[];
  /** Each of so many frames; 1: every one. */
  readonly step?: number;
  /** How many bytes are taken to be as they were, of a log that is spoilt from `at` on: another answer is a control. */
  readonly wholeTo?: (at: number) => number;
}

export async function tornLog({ sorts = SORTS, step = 1, wholeTo = (at) => at }: Log = {}): Promise<Torn> {
  const { told, faults, came } = counting();
  const shop = await freshShop();
  const [file, log] = ["ohmwright.db", "ohmwright.db-wal"];
  /** In a folder of its own: what this process had open before stays open a while. */
  const beside = async <T>(bytes: Buffer, look: (folder: string) => Promise<T>): Promise<T> => {
    const folder = await mkdtemp(join(tmpdir(), "ohmwright-torn-"));
    try {
      await copyFile(join(shop.folder, file), join(folder, file));
      await writeFile(join(folder, log), bytes);
      return await look(folder);
    } finally {
      await rm(folder, { recursive: true });
    }
  };
  const stands = async (folder: string) => {
    const { db, close } = await opened({ folder });
    return everything(db).finally(close);
  };
  try {
    const server = await served(shop.folder, await bundle());
    /** After each answer: how long the log is, what stands, and what was acknowledged so far. */
    const answers: { readonly end: number; readonly state: string; readonly done: readonly Write[] }[] = [];
    const done: Write[] = [];
    answers.push({ end: 0, state: await beside(Buffer.alloc(0), stands), done: [] });
    for (const sort of sorts) {
      const each = await write(sort, `${sort} mark`, shop.shop, server.url);
      const answer = await each.send(server.url);
      if (!isDone(answer)) throw new Error(`${sort}: ${answer.status} ${answer.text.slice(0, 300)}`);
      done.push(each);
      const bytes = await readFile(join(shop.folder, log));
      answers.push({ end: bytes.length, state: await beside(bytes, stands), done: [...done] });
    }
    await server.kill();
    const bytes = await readFile(join(shop.folder, log));
    const frames = framesOf(bytes);

    /** `whole`: of the log, so many bytes are as they were. */
    const one = async (what: string, spoilt: Buffer, whole: number) => {
      const commit = frames.findLast(({ commits, to }) => commits && to <= wholeTo(whole))?.to ?? 0;
      const last = answers.findLast(({ end }) => end <= commit)!;
      await beside(spoilt, async (folder) => {
        const state = last.end === commit ? await stands(folder) : last.state;
        const found = await faultsIn(folder, shop.shop, { done: last.done, open: [] }, shop.before);
        if (state !== last.state) found.push(`not what stood after ${last.done.length} answers`);
        faults.push(...found.map((fault) => `log ${what} at ${whole}: ${fault}`));
      });
      came(`log ${what}`, `${last.done.length} of ${done.length} answers stand`);
    };
    const cut = (what: string, at: number) => one(what, bytes.subarray(0, at), at);
    const flip = (what: string, at: number, whole: number) => one(what, changed(bytes, at), whole);
    await cut("left whole", bytes.length);
    for (const at of [0, 16, LOG_HEAD]) await cut("cut in its head", at);
    for (const at of [0, 9, 17, 25]) await flip("with a byte of its head changed", at, 0);
    for (let n = 0; n < frames.length; n += step) {
      const { from, to } = frames[n]!;
      await cut("cut between frames", to);
      await cut("cut in the head of a frame", from + FRAME_HEAD / 2);
      await cut("cut in a page", (from + to) >> 1);
      await flip("with a byte of a frame's head changed", from + (n % FRAME_HEAD), from);
      await flip("with a byte of a page changed", (from + to) >> 1, from);
    }
  } finally {
    await shop.gone();
  }
  return { told, faults };
}

const PAGE = 4096;

/** Where the database is cut, or a byte of it changed: SQLite's file format, 1.3. */
const places = (size: number) => ({
  "cut short": [0, 1, 16, 99, 100, 101, 512, PAGE - 1, PAGE, PAGE + 1, size >> 2, size >> 1, size - PAGE, size - 100, size - 1],
  "with a byte of its head changed": [0, 16, 18, 19, 21, 24, 28, 31, 40, 47, 52, 56, 59, 63, 68, 95, 99],
  "with a byte of a page changed": [100, 105, 110, PAGE, PAGE + 5, 2 * PAGE + 1, 5 * PAGE + 8, size >> 1, size - PAGE, size - 1],
});

export async function tornFile(only?: readonly number[]): Promise<Torn> {
  const { told, faults, came } = counting();
  const shop = await freshShop();
  try {
    const bytes = await readFile(join(shop.folder, "ohmwright.db"));
    const spoil = { cut: (at: number) => bytes.subarray(0, at), with: (at: number) => changed(bytes, at) };
    for (const [what, each] of Object.entries(places(bytes.length)))
      for (const at of only ? each.filter((_, n) => only.includes(n)) : each) {
        const name = `database ${what} at ${at}`;
        const folder = join(shop.folder, `${what} ${at}`);
        await mkdir(folder);
        await writeFile(join(folder, "ohmwright.db"), spoil[what.startsWith("cut") ? "cut" : "with"](at));
        const verified = await check(["--data", folder], {});
        if (unplain(verified.said)) faults.push(`${name}: verify says ${verified.said.slice(0, 300)}`);
        const started = await heard(folder);
        if (started.is !== "serves" && unplain(started.said)) faults.push(`${name}: start says ${started.said.slice(0, 400)}`);
        if (what === "cut short" && started.is === "serves") faults.push(`${name}: it starts on it`);
        if (what === "cut short" && verified.code === 0) faults.push(`${name}: verify finds all is well`);
        came(
          `database ${what}`,
          `${started.is === "serves" ? "start serves" : "start refuses"}, verify answers ${verified.code}`,
        );
      }
  } finally {
    await shop.gone();
  }
  return { told, faults };
}

async function heard(folder: string): Promise<{ readonly is: "serves" | "leaves"; readonly said: string }> {
  try {
    const server = await served(folder, npmStart);
    await server.kill();
    return { is: "serves", said: server.said() };
  } catch (error) {
    return { is: "leaves", said: (error as Error).message };
  }
}
