import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Client, createClient } from "@libsql/client/web";
import { describe, expect, it, onTestFinished } from "vitest";
import { connectWeb } from "../../src/records/connectWeb.js";
import { SHOP, settings } from "../../src/records/settings.js";
import { fillOnce } from "../../src/tools/firstShop.js";
import { startEndpoint } from "../../src/tools/libsqlEndpoint.js";
import { migrateDatabase } from "../../src/tools/migrateDatabase.js";

async function endpoint(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-endpoint-"));
  const { url, stop } = await startEndpoint(join(folder, "shop.db"));
  onTestFinished(async () => {
    await stop();
    await rm(folder, { recursive: true });
  });
  return url;
}

const counted = async (client: Client) => (await client.execute("SELECT count(*) AS n FROM t")).rows[0]!.n;

// Judge: @libsql/client's own HTTP client, the one the edge uses.
describe("the development endpoint", () => {
  it("carries every kind of value both ways", async () => {
    const client = createClient({ url: await endpoint() });
    await client.execute("CREATE TABLE t (i INTEGER, r REAL, x TEXT, b BLOB, n TEXT)");
    const bytes = new Uint8Array([0, 1, 255]);
    await client.execute({
      sql: "INSERT INTO t VALUES (?, ?, ?, ?, ?)",
      args: [9_007_199_254_740_991, 1.5, "Ž💡", bytes, null],
    });
    await client.execute({ sql: "INSERT INTO t (i, x) VALUES (:i, @x)", args: { i: -1, x: "named" } });
    const { rows, columns } = await client.execute("SELECT i, r, x, b, n FROM t");
    expect(columns).toEqual(["i", "r", "x", "b", "n"]);
    expect([rows[0]!.i, rows[0]!.r, rows[0]!.x, rows[0]!.n]).toEqual([9_007_199_254_740_991, 1.5, "Ž💡", null]);
    expect(new Uint8Array(rows[0]!.b as ArrayBuffer)).toEqual(bytes);
    expect(rows[1]).toMatchObject({ i: -1, x: "named" });
  });

  it("commits a transaction, rolls back another, and keeps them apart from the rest", async () => {
    const client = createClient({ url: await endpoint() });
    await client.execute("CREATE TABLE t (i INTEGER PRIMARY KEY)");
    const first = await client.transaction("write");
    await first.execute("INSERT INTO t VALUES (1)");
    await first.commit();
    const second = await client.transaction("write");
    await second.execute("INSERT INTO t VALUES (2)");
    await second.rollback();
    expect(await counted(client)).toBe(1);
  });

  it("does all of a batch or none of it, and gives the constraint's code", async () => {
    const client = createClient({ url: await endpoint() });
    await client.execute("CREATE TABLE t (i INTEGER PRIMARY KEY)");
    await client.batch(["INSERT INTO t VALUES (1)", "INSERT INTO t VALUES (2)"], "write");
    await expect(client.batch(["INSERT INTO t VALUES (3)", "INSERT INTO t VALUES (1)"], "write")).rejects.toMatchObject({
      code: expect.stringMatching(/^SQLITE_CONSTRAINT/),
    });
    expect(await counted(client)).toBe(2);
    await expect(client.execute("SELECT * FROM nowhere")).rejects.toThrow(/nowhere/);
  });

  it("runs a script", async () => {
    const client = createClient({ url: await endpoint() });
    await client.executeMultiple("CREATE TABLE t (i INTEGER); INSERT INTO t VALUES (1); INSERT INTO t VALUES (2);");
    expect(await counted(client)).toBe(2);
  });

  it("refuses what it does not know without falling over", async () => {
    const url = await endpoint();
    expect((await fetch(`${url}/v3-protobuf`)).status).toBe(404);
    expect((await fetch(`${url}/v2/pipeline`, { method: "POST", body: "{" })).status).toBe(400);
    expect((await fetch(`${url}/v2/pipeline`, { method: "POST", body: '{"baton":"old","requests":[]}' })).status).toBe(400);
    expect((await fetch(`${url}/v2`)).status).toBe(200);
  });
});

describe("a database over HTTP", () => {
  it("is migrated and filled like a file, once", async () => {
    const db = connectWeb(await endpoint());
    await migrateDatabase(db);
    await migrateDatabase(db);
    const now = new Date("2026-11-25T09:00:00.000Z");
    expect(await fillOnce(db, "empty", now)).toBe("empty");
    expect(await fillOnce(db, "demo", now)).toBeUndefined();
    expect(await settings.find(db, SHOP)).toMatchObject({ name: "My workshop" });
  });
});
