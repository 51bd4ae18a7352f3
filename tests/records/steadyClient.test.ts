/** What is acknowledged is kept, whatever other programs do to the file meanwhile; what cannot be written is refused, and not done. */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createClient, LibsqlError } from "@libsql/client";
import { sql } from "drizzle-orm";
import { drizzle } from "drizzle-orm/libsql";
import { migrate } from "drizzle-orm/libsql/migrator";
import { describe, expect, it, onTestFinished } from "vitest";
import { connectFile } from "../../src/records/connectFile.js";
import { connectWeb } from "../../src/records/connectWeb.js";
import type { Database } from "../../src/records/database.js";
import { busyIn } from "../../src/records/databaseBusy.js";
import { owners } from "../../src/records/owners.js";
import { SteadyClient } from "../../src/records/steadyClient.js";
import { neighbour } from "./support/neighbour.js";
import { put } from "./support/put.js";
import { MISHAPS, type Mishap, throughWire } from "./support/wire.js";

const AT = "2026-11-25T09:00:00.000Z";
/** Long enough to be sure that nothing gives up, short enough not to be waited for. */
const [PATIENT, HASTY] = [60_000, 100];

async function file(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  onTestFinished(() => rm(folder, { recursive: true }));
  return join(folder, "shop.db");
}

async function opened(path: string, patience: number): Promise<Database> {
  const { db, close } = await connectFile(`file:${path}`, patience);
  onTestFinished(close);
  await migrate(db, { migrationsFolder: "migrations" });
  return db;
}

const add = (db: Database, id: string) => put(db, owners, id, { name: `Owner ${id}` }, AT);
const ten = Array.from({ length: 10 }, (_, index) => `after-${index}`);
/** Whether nothing was done, of whatever the work was refused with. */
const refusal = (work: Promise<unknown>) =>
  work.then(
    () => "done",
    (error: unknown) => busyIn(error)?.nothingDone ?? error,
  );

describe("a disk that fails", () => {
  /** Each connection fails once so, as the driver tells it; the next is whole. */
  async function failing(code: string, rawCode: number) {
    const path = await file();
    await opened(path, PATIENT);
    let connections = 0;
    const client = new SteadyClient({
      over: "file",
      open: async () => {
        connections += 1;
        const inner = createClient({ url: `file:${path}` });
        if (connections > 1) return inner;
        inner.batch = () => Promise.reject(new LibsqlError("as it was told", code, undefined, rawCode));
        return inner;
      },
    });
    onTestFinished(() => client.close());
    return { db: drizzle(client), connections: () => connections };
  }

  it("may have kept what it did not say it kept: nobody is told that nothing was done", async () => {
    // Codes: sqlite.org/rescode.html, SQLITE_IOERR_FSYNC and SQLITE_IOERR_WRITE.
    expect(await refusal(add((await failing("SQLITE_IOERR", 1034)).db, "a"))).toBe(false);
    expect(await refusal(add((await failing("SQLITE_IOERR", 778)).db, "a"))).toMatchObject({ cause: { rawCode: 778 } });
  });

  it("and was opened for reading alone is opened anew, so that writing goes on when it can", async () => {
    const { db, connections } = await failing("SQLITE_READONLY", 8);
    expect(await refusal(add(db, "a"))).not.toBe("done");
    expect(await refusal(add(db, "a"))).toBe("done");
    expect(connections()).toBe(2);
  });
});

describe("another process that holds the write lock", () => {
  it("is waited for, while reads go on, and its end lets the write through", async () => {
    const path = await file();
    const db = await opened(path, PATIENT);
    await add(db, "before");
    const other = await neighbour(path);
    await other.run("BEGIN IMMEDIATE");
    let done = false;
    const waiting = add(db, "waited").finally(() => {
      done = true;
    });
    for (let read = 0; read < 20; read += 1) expect(await owners.find(db, "before")).toBeDefined();
    expect(done).toBe(false);
    await other.run("ROLLBACK");
    expect(await waiting).toMatchObject({ version: 1 });
    expect(await other.count("owners")).toBe(2);
  });

  it("past our patience has writes refused and not done; every later one that is acknowledged is there for a third process, and stays", async () => {
    const path = await file();
    const db = await opened(path, HASTY);
    const [other, third] = [await neighbour(path), await neighbour(path)];
    await other.run("BEGIN IMMEDIATE");
    const refused = await Promise.all(["a", "b", "c"].map((id) => refusal(add(db, id))));
    const batch = db.batch([db.run(sql`UPDATE owners SET name = 'x'`), db.select().from(sql`owners`)]);
    expect([...refused, await refusal(batch)]).toEqual([true, true, true, true]);
    await other.run("ROLLBACK");

    expect(await third.count("owners")).toBe(0);
    for (const id of ten) expect(await add(db, id)).toMatchObject({ version: 1 });
    expect(await third.count("owners")).toBe(10);
    for (const free of [other, third]) await free.run("BEGIN IMMEDIATE; UPDATE owners SET notes = 'seen'; COMMIT");
    const again = await connectFile(`file:${path}`);
    onTestFinished(again.close);
    expect((await owners.list(again.db, { limit: 50 })).rows.map(({ id }) => id).sort()).toEqual([...ten].sort());
  });

  // The control: what the driver does by itself (tursodatabase/libsql-client-ts#352). If this fails, the driver is mended.
  it("makes the bare driver lose ten writes that it acknowledged", async () => {
    const path = await file();
    await opened(path, HASTY);
    const client = createClient({ url: `file:${path}`, timeout: HASTY });
    onTestFinished(() => client.close());
    const bare = drizzle(client);
    const [other, third] = [await neighbour(path), await neighbour(path)];
    await other.run("BEGIN IMMEDIATE");
    expect(await refusal(add(bare, "a"))).not.toBe("done");
    await other.run("ROLLBACK");
    for (const id of ten) expect(await add(bare, id)).toMatchObject({ version: 1 });
    // None at all, unless the spoilt statement is collected as garbage meanwhile.
    expect(await third.count("owners")).toBeLessThan(10);
  });

  it("does not hold up a note beside a read, which is left out", async () => {
    const path = await file();
    const db = await opened(path, PATIENT);
    const { $client: client } = db as Database & { readonly $client: SteadyClient };
    const other = await neighbour(path);
    const note = "INSERT INTO owners (id, version, created_at, updated_at, name) VALUES ('o', 1, '', '', 'x')";
    await other.run("BEGIN IMMEDIATE");
    expect(await client.atOnce(note)).toBe(false);
    await other.run("ROLLBACK");
    expect(await client.atOnce(note)).toBe(true);
    expect(await other.count("owners")).toBe(1);
    await expect(client.atOnce(note)).rejects.toMatchObject({ code: expect.stringMatching(/^SQLITE_CONSTRAINT/) });
  });
});

describe("within one process", () => {
  it("thirty writers at once all stand, beside a transaction that is open meanwhile", async () => {
    const path = await file();
    const db = await opened(path, PATIENT);
    const all = Array.from({ length: 30 }, (_, index) => `w${index}`);
    const [, ...answers] = await Promise.all([
      db.transaction(async (within) => {
        await add(within as unknown as Database, "within");
        expect(await owners.find(db, "within")).toBeUndefined();
      }),
      ...all.map((id) => add(db, id)),
    ]);
    expect(answers.map(({ id }) => id)).toEqual(all);
    expect(await (await neighbour(path)).count("owners")).toBe(31);
  });

  it("a write inside an open transaction is refused in the end, not waited for without end", async () => {
    const db = await opened(await file(), HASTY);
    await db.transaction(async (within) => {
      await add(within as unknown as Database, "within");
      expect(await refusal(add(db, "beside"))).toBe(true);
    });
    expect((await owners.list(db, { limit: 50 })).rows.map(({ id }) => id)).toEqual(["within"]);
  });

  it("a transaction that fails leaves nothing, and neither does a script", async () => {
    const db = await opened(await file(), PATIENT);
    const failing = db.transaction(async (within) => {
      await add(within as unknown as Database, "within");
      throw new Error("changed my mind");
    });
    await expect(failing).rejects.toThrow("changed my mind");
    const { $client: client } = db as Database & { readonly $client: SteadyClient };
    const script = "CREATE TABLE t (i INTEGER PRIMARY KEY); INSERT INTO t VALUES (1);";
    await expect(client.executeMultiple(`${script} INSERT INTO t VALUES (1)`)).rejects.toThrow("UNIQUE");
    await client.executeMultiple(`${script} -- and no more`);
    expect((await client.execute("SELECT i FROM t")).rows).toHaveLength(1);
    expect(await owners.list(db, { limit: 50 })).toMatchObject({ rows: [] });
  });

  it.each([
    ["INSERT INTO t VALUES (2)", 2],
    ["WITH one AS (SELECT 2 AS i) INSERT INTO t SELECT i FROM one RETURNING i", 2],
    ["/* why */ -- so\n DELETE FROM t", 0],
    ["REPLACE INTO t VALUES (1)", 1],
    ["WITH one AS (SELECT 'update' AS i) SELECT i FROM one", 1],
    ["VALUES (1)", 1],
    ["VACUUM", 1],
    ["PRAGMA user_version = 7", 1],
  ])("'%s' is carried out, and seen by another process", async (statement, rows) => {
    const path = await file();
    const { db, close } = await connectFile(`file:${path}`, PATIENT);
    onTestFinished(close);
    await db.run("CREATE TABLE t (i INTEGER PRIMARY KEY)");
    await db.run("INSERT INTO t VALUES (1)");
    await db.run(statement);
    const other = createClient({ url: `file:${path}` });
    onTestFinished(() => other.close());
    expect((await other.execute("SELECT count(*) AS n FROM t")).rows[0]).toMatchObject({ n: rows });
  });

  it("answers nothing more once it is closed, and does again when it is opened anew", async () => {
    const db = await opened(await file(), PATIENT);
    const { $client: client } = db as Database & { readonly $client: SteadyClient };
    client.close();
    await expect(client.execute("SELECT 1")).rejects.toThrow("closed");
    client.reconnect();
    expect((await client.execute("SELECT 1 AS one")).rows[0]).toMatchObject({ one: 1 });
  });
});

async function wired(path: string) {
  const { stop, ...between } = await throughWire(path);
  onTestFinished(stop);
  return between;
}

const EXPIRED = "a stream that has expired";
/** Whoever answered so carried nothing out, and says so; all else may stand. */
const UNHEARD: readonly Mishap[] = ["a 401", "a 404", "a 429", "sent elsewhere by 302", "sent elsewhere by 307", EXPIRED];

describe("a database over HTTP", () => {
  it("whose lock another holds past our patience refuses writes, and not reads; later ones stand", async () => {
    const path = await file();
    await opened(path, PATIENT);
    const { url } = await wired(path);
    const db = connectWeb(url, undefined, { patience: HASTY });
    const other = await neighbour(path);
    await other.run("BEGIN IMMEDIATE");
    expect(await refusal(add(db, "a"))).toBe(true);
    expect(await owners.find(db, "a")).toBeUndefined();
    await other.run("ROLLBACK");
    for (const id of ten) expect(await add(db, id)).toMatchObject({ version: 1 });
    expect(await other.count("owners")).toBe(10);
  });

  it("that gives no answer to a write may have done it: it is not sent again, and not called undone", async () => {
    const path = await file();
    const direct = await opened(path, PATIENT);
    const { url, wire } = await wired(path);
    const db = connectWeb(url);
    wire.next.push("cut off once it is done");
    expect(await refusal(add(db, "once"))).toBe(false);
    expect(wire.arrived).toBe(1);
    expect((await owners.list(direct, { limit: 50 })).rows.map(({ id }) => id)).toEqual(["once"]);
    expect(await add(db, "next")).toMatchObject({ version: 1 });
  });

  it("is asked once for what is read side by side, each told its own; what it refuses takes nothing else with it", async () => {
    const path = await file();
    const direct = await opened(path, PATIENT);
    await add(direct, "there");
    await add(direct, "too");
    const { url, wire } = await wired(path);
    const db = connectWeb(url);
    const [there, none, list, [names]] = await Promise.all([
      owners.find(db, "there"),
      owners.find(db, "nowhere"),
      owners.list(db, { limit: 50 }),
      db.batch([db.all(sql`SELECT name FROM owners ORDER BY id`)]),
    ]);
    expect(wire.arrived).toBe(1);
    expect([there?.name, none, list.rows.map(({ id }) => id)]).toEqual(["Owner there", undefined, ["there", "too"]]);
    expect(names).toEqual([{ name: "Owner there" }, { name: "Owner too" }]);
    const both = await Promise.allSettled([db.all(sql`SELECT nothing FROM nowhere`), owners.find(db, "too")]);
    expect(both).toMatchObject([{ status: "rejected" }, { status: "fulfilled", value: { name: "Owner too" } }]);
    expect(await Promise.all(Array.from({ length: 150 }, () => owners.find(db, "too")))).toHaveLength(150);
    // Both together, and each alone; 150 in pieces of 64.
    expect(wire.arrived).toBe(1 + 3 + 3);
  });

  it("that gives no answer to a read is asked once more", async () => {
    const path = await file();
    await add(await opened(path, PATIENT), "there");
    const { url, wire } = await wired(path);
    const db = connectWeb(url);
    wire.next.push("cut off once it is done");
    expect(await owners.find(db, "there")).toMatchObject({ name: "Owner there" });
    wire.next.push("a 500", "half of the answer, as if it were whole");
    expect(await refusal(owners.find(db, "there"))).toBe(true);
  });

  it.each(Object.keys(MISHAPS) as Mishap[])(
    "that meets a write with '%s' has it once or not, and is told apart from an answer",
    async (mishap) => {
      const path = await file();
      const direct = await opened(path, PATIENT);
      const { url, wire } = await wired(path);
      const db = connectWeb(url, undefined, { wait: mishap === "no answer" ? 2_000 : PATIENT });
      wire.next.push(mishap);
      const said = await refusal(add(db, "once"));
      const stands = (await owners.list(direct, { limit: 50 })).rows.length;
      expect(typeof said === "boolean" ? said : String(said)).toBe(UNHEARD.includes(mishap));
      expect(stands).toBe(MISHAPS[mishap].carriedOut ? 1 : 0);
      expect(wire.arrived).toBe(1);
    },
  );
});
