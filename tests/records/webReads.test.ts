/** Beside @libsql/client over the same endpoint: what it gives is what we give. */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createClient } from "@libsql/client/web";
import { describe, expect, it, onTestFinished } from "vitest";
import { type Heard, webReads } from "../../src/records/webReads.js";
import { startEndpoint } from "../../src/tools/libsqlEndpoint.js";

async function opened() {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  const endpoint = await startEndpoint(join(folder, "shop.db"));
  const client = createClient({ url: endpoint.url });
  await client.executeMultiple(`PRAGMA journal_mode = WAL; CREATE TABLE t (id INTEGER PRIMARY KEY, name TEXT, part REAL, raw BLOB);
    INSERT INTO t VALUES (1, 'Ω', 0.5, x'0102'), (2, NULL, -3.0, NULL), (3, 'x', 9007199254740991, x'')`);
  onTestFinished(async () => {
    client.close();
    await endpoint.stop();
    await rm(folder, { recursive: true });
  });
  const asked: { url: string; init: RequestInit }[] = [];
  const ask = async (url: string, init: RequestInit): Promise<Heard> => {
    asked.push({ url, init });
    const answer = await fetch(url, init);
    return { status: answer.status, body: await answer.text(), type: "" };
  };
  return { client, asked, read: webReads(endpoint.url, undefined, ask) };
}

const answering = (body: unknown, status = 200) =>
  webReads("http://demo.example", undefined, async () => ({ status, body: JSON.stringify(body), type: "" }));

describe("what is read over HTTP", () => {
  it("is what the client gives, by name and by position, alone and with others", async () => {
    const { client, read } = await opened();
    const asked = [
      "SELECT * FROM t ORDER BY id",
      { sql: "SELECT id, name AS id, raw FROM t WHERE id = ? OR name = ?", args: [2, "Ω"] },
      { sql: "SELECT :yes AS yes, $day AS day", args: { yes: true, $day: new Date(5) } },
      'SELECT 1, 2, 1 AS "1" WHERE 0 UNION ALL SELECT 4, 5, 6',
      { sql: "SELECT hex(?) AS bytes, ? AS big, ? AS none", args: [new Uint8Array([7, 8]).buffer, 5n, null] },
      { sql: "SELECT hex(?) AS bytes", args: [new Uint8Array([0, 7, 8]).subarray(1)] },
      { sql: "SELECT hex(?) AS bytes", args: [Buffer.from([7, 8])] },
    ];
    const together = await read(asked);
    for (const [at, one] of asked.entries()) {
      const [alone, theirs] = [(await read([one]))[0]!, await client.execute(one)];
      for (const ours of [alone, together[at]!]) {
        expect([ours.columns, ours.columnTypes]).toEqual([theirs.columns, theirs.columnTypes]);
        expect(ours.rows.map((row) => Array.from(row))).toEqual(theirs.rows.map((row) => Array.from(row)));
        const named = ours.columns.some((name) => /^\d/.test(name)) ? [] : ours.rows;
        expect(named.map((row) => Object.entries(row))).toEqual(named.map((_, row) => Object.entries(theirs.rows[row]!)));
      }
    }
  });

  it("is asked in one request, each statement said once", async () => {
    const { asked, read } = await opened();
    await read(["SELECT id FROM t", "SELECT count(*) AS n FROM t"]);
    expect(asked).toHaveLength(1);
    expect(String(asked[0]!.init.body).split("SELECT id FROM t")).toHaveLength(2);
  });

  it("tells what is wrong as the client does, and goes on after it", async () => {
    const { client, read } = await opened();
    for (const wrong of ["SELECT * FROM nowhere", "SELEC", "SELECT json('{') FROM t"]) {
      const theirs = await client.execute(wrong).catch((error) => error);
      await expect(read([wrong])).rejects.toMatchObject({ message: theirs.message, code: theirs.code });
      await expect(read(["SELECT 1", wrong, "SELECT 2"])).rejects.toMatchObject({ message: theirs.message });
    }
    await expect(read(["SELECT 9007199254740993"])).rejects.toThrow(/more than a number holds/);
    await expect(read([{ sql: "SELECT ?", args: [Number.NaN] }])).rejects.toThrow(/finite/);
    expect((await read(["SELECT 1 AS one"]))[0]!.rows[0]).toMatchObject({ one: 1 });
  });

  it("is lost where the server answers less than it was asked, and refused where the server refuses the request", async () => {
    for (const body of [
      {},
      { results: [] },
      { results: [{ type: "ok", response: { type: "batch", result: { step_results: [null] } } }] },
    ])
      await expect(answering(body)(["SELECT 1"])).rejects.toMatchObject({ code: "HRANA_PROTO_ERROR" });
    const cell = (value: unknown, cols: unknown = [{ name: "a" }], rows: unknown = [[value]]) => ({
      results: [{ type: "ok", response: { type: "batch", result: { step_results: [{ cols, rows }], step_errors: [null] } } }],
    });
    expect((await answering(cell({ type: "integer", value: "5" }))(["SELECT 1"]))[0]!.rows[0]).toMatchObject({ a: 5 });
    const none = { type: "null" };
    for (const body of [
      ...[null, { type: "text" }, { type: "integer" }, { type: "integer", value: "x" }, { type: "float", value: "1" }].map(
        (odd) => cell(odd),
      ),
      ...[{ type: "blob" }, { type: "blob", base64: "%" }, { type: "day", value: "1" }].map((odd) => cell(odd)),
      ...[cell(none, []), cell(none, null), cell(none, [{ name: "a" }], null), cell(none, [{ name: "a" }], [null])],
    ])
      await expect(answering(body)(["SELECT 1"]), JSON.stringify(body)).rejects.toMatchObject({ code: "HRANA_PROTO_ERROR" });
    const broken = { results: [{ type: "error", error: { message: "out of order", code: "SQLITE_BUSY" } }] };
    await expect(answering(broken)(["SELECT 1"])).rejects.toMatchObject({
      code: "SQLITE_BUSY",
      message: expect.stringContaining("out of order"),
    });
    await expect(answering({ message: "no" }, 400)(["SELECT 1"])).rejects.toMatchObject({ code: "SERVER_ERROR" });
  });

  it("goes to the address that the client reads, with its token", async () => {
    const asked = async (address: string, token?: string) => {
      let heard: unknown;
      const ask = async (url: string, { headers }: RequestInit) => {
        heard = [url, (headers as Record<string, string>).authorization];
        throw new Error("enough");
      };
      await webReads(address, token, ask)(["SELECT 1"]).catch(() => undefined);
      return heard;
    };
    expect(await asked("libsql://demo.example", "demo")).toEqual(["https://demo.example/v2/pipeline", "Bearer demo"]);
    expect(await asked("libsql://demo.example:8080?tls=0")).toEqual(["http://demo.example:8080/v2/pipeline", undefined]);
    expect(await asked("https://demo.example/?authToken=own", "other")).toEqual([
      "https://demo.example/v2/pipeline",
      "Bearer own",
    ]);
  });
});
