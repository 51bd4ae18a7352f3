import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createClient } from "@libsql/client";
import { describe, expect, it, onTestFinished } from "vitest";
import { FileReads } from "../../src/records/fileReads.js";

async function opened() {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  const client = createClient({ url: `file:${folder}/shop.db` });
  const made = () => new FileReads(join(folder, "shop.db"));
  await client.executeMultiple(`PRAGMA journal_mode = WAL; CREATE TABLE t (id INTEGER PRIMARY KEY, name TEXT, part REAL, raw BLOB);
    INSERT INTO t VALUES (1, 'Ω', 0.5, x'0102'), (2, NULL, -3.0, NULL), (3, 'x', 9007199254740991, x'')`);
  const reads = made();
  onTestFinished(async () => {
    reads.close();
    client.close();
    await rm(folder, { recursive: true });
  });
  return { client, reads };
}

describe("statements kept ready", () => {
  it("give the rows that the client gives, by name and by position, each time they are run", async () => {
    const { client, reads } = await opened();
    const asked = [
      "SELECT * FROM t ORDER BY id",
      { sql: "SELECT id, name AS id, raw FROM t WHERE id = ? OR name = ?", args: [2, "Ω"] },
      { sql: "SELECT :yes AS yes, $day AS day", args: { yes: true, $day: new Date(5) } },
      'SELECT 1, 2, 1 AS "1" WHERE 0 UNION ALL SELECT 4, 5, 6',
      { sql: "SELECT hex(?) AS bytes", args: [new Uint8Array([7, 8]).buffer] },
    ];
    for (const one of [...asked, ...asked]) {
      const [ours, theirs] = [reads.all([one])[0]!, await client.execute(one)];
      expect(ours.columns).toEqual(theirs.columns);
      expect(ours.rows.map((row) => Array.from(row))).toEqual(theirs.rows.map((row) => Array.from(row)));
      const named = ours.columns.some((name) => /^\d/.test(name)) ? [] : ours.rows;
      expect(named.map((row) => Object.entries(row))).toEqual(named.map((_, at) => Object.entries(theirs.rows[at]!)));
    }
  });

  it("see what was written since, and a column that was added", async () => {
    const { client, reads } = await opened();
    const count = () => reads.all(["SELECT count(*) AS n FROM t"])[0]!.rows[0]!.n;
    expect(count()).toBe(3);
    await client.execute("INSERT INTO t (name) VALUES ('y')");
    expect(count()).toBe(4);
    await client.execute("ALTER TABLE t ADD COLUMN more TEXT DEFAULT 'm'");
    expect([count(), reads.all(["SELECT more FROM t LIMIT 1"])[0]!.rows[0]!.more]).toEqual([4, "m"]);
  });

  it("write nothing, tell what is wrong, and go on after it", async () => {
    const { reads } = await opened();
    expect(() => reads.all(["INSERT INTO t (name) VALUES ('y') RETURNING id"])).toThrow(/readonly/);
    expect(() => reads.all(["SELECT 1", "SELECT json('{') FROM t"])).toThrow(/malformed JSON/);
    expect(() => reads.all(["SELECT 9007199254740993"])).toThrow(/more than a number holds/);
    expect(reads.all(["SELECT 1 AS one", "SELECT count(*) AS n FROM t"]).map(({ rows }) => Object.values(rows[0]!))).toEqual([
      [1],
      [3],
    ]);
  });

  it("are let go of when there are too many", async () => {
    const { reads } = await opened();
    for (let at = 0; at < 1200; at += 1) expect(reads.all([`SELECT ${at} AS at`])[0]!.rows[0]!.at).toBe(at);
    expect(reads.all(["SELECT 0 AS at"])[0]!.rows[0]!.at).toBe(0);
  });
});
