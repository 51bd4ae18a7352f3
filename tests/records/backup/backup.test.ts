import { randomBytes } from "node:crypto";
import { gunzipSync, gzipSync } from "node:zlib";
import { sql } from "drizzle-orm";
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { backupLines, ShopMoved } from "../../../src/records/backup/dump.js";
import { fromBase64, toBase64 } from "../../../src/records/backup/format.js";
import { triggersOf } from "../../../src/records/backup/guards.js";
import { restore } from "../../../src/records/backup/restore.js";
import { tablesOf } from "../../../src/records/backup/tables.js";
import { values } from "../../../src/records/backup/values.js";
import { asStream, unzipped, zipped } from "../../../src/records/backup/zip.js";
import { catalogued, saysAll } from "../../../src/records/catalogue.js";
import type { Database } from "../../../src/records/database.js";
import { owners } from "../../../src/records/owners.js";
import { search, wordsIn } from "../../../src/records/search.js";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { emptyDatabase, freshDatabase, openShop } from "../../http/support/shop.js";
import { runs } from "../../setup/runs.js";
import { at } from "../support/livedIn.js";
import { livedInFile } from "../support/livedInShop.js";
import { change, put } from "../support/put.js";

const PICTURE = Uint8Array.from({ length: 1000 }, (_, n) => n % 251);

const bytesOf = async (stream: ReadableStream<Uint8Array>) => new Uint8Array(await new Response(stream).arrayBuffer());
const source = (bytes: Uint8Array) => () => new Blob([bytes as Uint8Array<ArrayBuffer>]).stream() as ReadableStream<Uint8Array>;
const noFile = () => Promise.reject(new Error("There is no file in this backup."));

/** Every row of every table that is backed up, as the database gives it. */
async function everything(db: Database): Promise<Record<string, unknown[]>> {
  const { kept } = await tablesOf(db);
  const found: Record<string, unknown[]> = {};
  for (const { name, columns } of kept) {
    const list = sql.join(
      columns.map((column) => sql`hex(${sql.identifier(column)})`),
      sql`, `,
    );
    found[name] = await values(db, sql`SELECT ${list} FROM ${sql.identifier(name)} ORDER BY rowid`);
  }
  return found;
}

let shop: Awaited<ReturnType<typeof openShop>>;
let backup: Uint8Array;
let lines: string[];
let empty: Database;

beforeAll(async () => {
  shop = await openShop({}, (await livedInFile()).path);
  const photo = { name: "photo-1", type: "image/jpeg", read: async () => PICTURE };
  const lost = { name: "photo-2", type: "image/jpeg", read: async () => undefined };
  backup = await bytesOf(zipped(backupLines(shop.db, at(20), async () => [photo, lost])));
  lines = new TextDecoder().decode(gunzipSync(backup)).trimEnd().split("\n");
  const { db, close } = await emptyDatabase();
  empty = db;
  return async () => {
    await shop.close();
    await close();
  };
}, 30_000);

const zip = (changed: readonly string[]) => gzipSync(`${changed.join("\n")}\n`);
/** Into one empty database: what is refused leaves nothing in it. */
const outcome = async (bytes: Uint8Array) => (await restore(empty, source(bytes), async () => undefined)).is;

describe("a backup", () => {
  it("says what it is before anything else", () => {
    const head = JSON.parse(lines[0]!);
    expect(head).toMatchObject({ format: "ohmwright backup", version: 1, madeAt: at(20), files: 2 });
    expect(head.tables.jobs.rows).toBe(5);
    expect(head.tables.agreements.rows).toBe(3);
    expect(Object.keys(head.tables)).not.toContain("sessions");
  });

  it("comes back row by row in an empty database, bytes and triggers too, and everything matches", async () => {
    const db = await freshDatabase();
    const files: { name: string; bytes: Uint8Array }[] = [];
    const done = await restore(db, source(backup), async (file) => void files.push(file));
    expect(done.is).toBe("restored");
    const [before, after] = [await everything(shop.db), await everything(db)];
    expect(Object.keys(before).length).toBeGreaterThan(20);
    expect(Object.values(before).filter((rows) => rows.length > 0).length).toBeGreaterThan(15);
    expect(after).toEqual(before);
    expect((await triggersOf(db)).map(({ sql: made }) => made)).toEqual((await triggersOf(shop.db)).map(({ sql: made }) => made));
    expect(files.map(({ name, bytes }) => [name, [...bytes]])).toEqual([["photo-1", [...PICTURE]]]);
    expect(await verifyShop(db)).toEqual(await verifyShop(shop.db));
    const listed = { from: 0, limit: 5, withdrawn: false };
    expect((await catalogued(db, saysAll("roller pinch", []), listed)).all).toBe(1);
    expect(await catalogued(db, saysAll("roller pinch", []), listed)).toEqual(
      await catalogued(shop.db, saysAll("roller pinch", []), listed),
    );
    expect(await search(db, ["tape"], 5)).toEqual(await search(shop.db, ["tape"], 5));
    expect((await search(db, wordsIn("tape"), 5)).length + (await search(db, wordsIn("J-2026-0001"), 5)).length).toBeGreaterThan(
      0,
    );
    await expect(db.run(sql`UPDATE issues SET issued_by = 'Someone'`)).rejects.toThrow();
  });

  it("goes into no database that holds anything", async () => {
    const db = await freshDatabase();
    await put(db, owners, "someone", { name: "Someone" }, at(0));
    expect(await restore(db, source(backup), noFile)).toEqual({ is: "shop there", table: "owners" });
    expect(await everything(db)).toMatchObject({ owners: [expect.anything()], jobs: [] });
  });

  it("is refused whole by a program that is older than it", async () => {
    const newer = JSON.stringify({ ...JSON.parse(lines[0]!), schema: 99, more: "unheard of" });
    expect(await outcome(zip([newer, ...lines.slice(1)]))).toBe("newer");
    const format = JSON.stringify({ ...JSON.parse(lines[0]!), version: 2 });
    expect(await outcome(zip([format, ...lines.slice(1)]))).toBe("newer");
  });

  it.each([
    ["without its end", () => zip(lines.slice(0, -1)), "cut off"],
    ["cut in the middle of its bytes", () => backup.slice(0, backup.length >> 1), "cut off"],
    ["with one line left out", () => zip(lines.filter((_, n) => n !== 3)), "altered"],
    ["with two lines changed over", () => zip([lines[0]!, lines[2]!, lines[1]!, ...lines.slice(3)]), "altered"],
    ["with a name changed", () => zip(lines.map((line) => line.replace("Ottilie", "Odette"))), "altered"],
    ["with lines after its end", () => zip([...lines, lines[1]!]), "altered"],
    ["of another program", () => gzipSync('{"some":"thing"}\n'), "no backup"],
    ["of no bytes", () => new Uint8Array(), "no backup"],
    ["that is no gzip", () => new TextEncoder().encode("id,name\n1,a\n"), "no backup"],
  ])("%s is refused", async (_, made, is) => {
    expect(await outcome(made())).toBe(is);
  });

  it("with any byte changed is refused, and leaves nothing behind", async () => {
    const before = await everything(empty);
    expect(Object.values(before).flat()).toEqual([]);
    await fc.assert(
      fc.asyncProperty(fc.nat(backup.length - 1), fc.integer({ min: 1, max: 255 }), async (place, by) => {
        // Bytes 4 to 9 of a gzip head are its date and system, which say nothing (RFC 1952, 2.3).
        fc.pre(place < 3 || place > 9);
        const spoilt = backup.slice();
        spoilt[place] = spoilt[place]! ^ by;
        expect((await restore(empty, source(spoilt), noFile)).is).toMatch(/no backup|cut off|altered|newer/);
      }),
      runs(8),
    );
    expect(await everything(empty)).toEqual(before);
  });

  it("with a line cut short, or a byte in it that is no letter, is given up where it is, and no error of the unpacking gets loose afterwards", async () => {
    const loose: string[] = [];
    const note = ({ message }: Error) => void loose.push(message);
    const others = process.listeners("uncaughtException");
    process.removeAllListeners("uncaughtException").on("uncaughtException", note);
    const longest = lines.reduce((most, line, at) => (line.length > lines[most]!.length ? at : most), 0);
    for (const share of [0.02, 0.05, 0.08, 0.1, 0.15, 0.2, 0.3, 0.5]) {
      const cut = lines.with(longest, lines[longest]!.slice(0, lines[longest]!.length * share));
      expect(await outcome(zip(cut))).toBe("altered");
      await new Promise((resolve) => setTimeout(resolve, 10));
      const bytes = Buffer.from(cut.join("\n"));
      const before = Buffer.byteLength(cut.slice(0, longest).join("\n"));
      bytes[before + Math.floor(cut[longest]!.length / 2)] = 0xff;
      expect(await outcome(gzipSync(bytes))).toBe("cut off");
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
    process.removeAllListeners("uncaughtException");
    for (const each of others) process.on("uncaughtException", each);
    expect(loose).toEqual([]);
  });

  it("is written no faster than it is taken; a pipe of Node's own runs ahead of it, and would be seen to", async () => {
    const asked = async (made: (lines: AsyncGenerator<string>) => ReadableStream<Uint8Array>) => {
      let lines = 0;
      const endless = async function* () {
        for (; lines < 200; lines += 1) yield randomBytes(50_000).toString("base64");
      };
      const reader = made(endless()).getReader();
      await reader.read();
      await new Promise((resolve) => setTimeout(resolve, 300));
      await reader.cancel();
      return lines;
    };
    expect(await asked(zipped)).toBeLessThan(10);
    async function* bytes(lines: AsyncGenerator<string>) {
      for await (const line of lines) yield new TextEncoder().encode(line);
    }
    const piped = (lines: AsyncGenerator<string>) =>
      asStream(bytes(lines)).pipeThrough(new CompressionStream("gzip") as never) as ReadableStream<Uint8Array>;
    expect(await asked(piped)).toBeGreaterThan(30);
  });

  it("that unpacks to far more than a backup does is given up soon", async () => {
    const line = `${" ".repeat(65_535)}\n`;
    const swells = gzipSync(Buffer.from(line.repeat(1024)));
    expect(swells.length).toBeLessThan(100_000);
    let read = 0;
    const all = (async () => {
      for await (const text of unzipped(source(swells)())) read += text.length;
    })();
    await expect(all).rejects.toThrow("far more than a backup");
    // Of 64 MiB.
    expect(read).toBeLessThan(30 * 1024 * 1024);
    const { db, close } = await emptyDatabase();
    expect((await restore(db, source(swells), noFile)).is).toBe("no backup");
    await close();
  });

  const rings = async (notes: string) => {
    const { id, version, ...rest } = (await owners.list(shop.db, { limit: 1 })).rows[0]!;
    await change(shop.db, owners, id, { name: rest.name, notes }, at(21), version);
    return id;
  };

  it("of a file is of the moment it began, whatever is written meanwhile", async () => {
    await rings("before");
    const reading = backupLines(shop.db, at(21));
    const head = (await reading.next()).value as string;
    const id = await rings("meanwhile");
    const whole = gzipSync(Buffer.concat([Buffer.from(head), gunzipSync(await bytesOf(zipped(reading)))]));
    expect((await owners.find(shop.db, id))!.notes).toBe("meanwhile");
    const { db, close } = await emptyDatabase();
    expect((await restore(db, source(whole), noFile)).is).toBe("restored");
    expect((await owners.find(db, id))!.notes).toBe("before");
    await close();
  });

  it("of a hosted database is not made while the shop is written to", async () => {
    const hosted = new Proxy(shop.db, { get: (db, key) => (key === "$client" ? undefined : Reflect.get(db, key)) });
    const reading = backupLines(hosted, at(21));
    await reading.next();
    await rings("rang");
    await expect(bytesOf(zipped(reading))).rejects.toThrow(ShopMoved);
  });

  it("whose restore broke off halfway is no shop, and can be restored again", async () => {
    const db = await freshDatabase();
    await expect(restore(db, source(backup), noFile)).rejects.toThrow("no file");
    expect(await everything(db)).toEqual(await everything(await freshDatabase()));
    // As after a power cut: emptied by nobody.
    const triggers = await triggersOf(db);
    await db.run(sql`CREATE TABLE restoring (name text NOT NULL, tbl text NOT NULL, made text NOT NULL) STRICT`);
    for (const { name, table, sql: made } of triggers) {
      await db.run(sql`INSERT INTO restoring VALUES (${name}, ${table}, ${made})`);
      await db.run(sql`DROP TRIGGER ${sql.identifier(name)}`);
    }
    await put(db, owners, "half", { name: "Half a shop" }, at(0));
    expect((await restore(db, source(backup), async () => undefined)).is).toBe("restored");
    expect(await triggersOf(db)).toEqual(triggers);
    expect(await owners.find(db, "half")).toBeUndefined();
  });
});

it("bytes survive being written as text, whatever they are", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 5000 }), (bytes) => {
      expect([...fromBase64(toBase64(bytes))]).toEqual([...bytes]);
    }),
  );
});
