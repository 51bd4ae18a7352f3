/** Rows that no event tells of stand twice: which, how the copy follows, and what is said where one of the two was changed. */
import { copyFile, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sql } from "drizzle-orm";
import { describe, expect, it, onTestFinished } from "vitest";
import { mismatchText } from "../../src/acts/checked/mismatch.js";
import { copiesOtherwise } from "../../src/acts/checked/rowCopies.js";
import { backupLines } from "../../src/records/backup/dump.js";
import { triggersOf } from "../../src/records/backup/guards.js";
import { copiedTables, tablesOf } from "../../src/records/backup/tables.js";
import { values } from "../../src/records/backup/values.js";
import { zipped } from "../../src/records/backup/zip.js";
import { connectFile } from "../../src/records/connectFile.js";
import type { Database } from "../../src/records/database.js";
import { UNCOPIED, UNCOPIED_COLUMNS } from "../../src/records/rowCopies.js";
import { restoreFile } from "../../src/tools/backup/restoreFile.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { freshDatabase } from "../http/support/shop.js";
import { copyTriggers } from "./support/copyTriggers.js";
import { livedInFile } from "./support/livedInShop.js";

async function livedIn() {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  await copyFile((await livedInFile()).path, join(folder, "ohmwright.db"));
  const { db, close } = await connectFile(`file:${folder}/ohmwright.db`);
  onTestFinished(async () => {
    close();
    await rm(folder, { recursive: true });
  });
  return { db, folder };
}

const said = async (db: Database) => (await copiesOtherwise(db)).map(mismatchText);

/** Behind the back of the triggers. */
async function spoilt(db: Database, statement: string): Promise<void> {
  const away = (await triggersOf(db)).filter(({ name }) => /_(row_copied|copy_moved|copy_dropped)$/.test(name));
  await db.run("PRAGMA foreign_keys = OFF");
  for (const { name } of away) await db.run(sql`DROP TRIGGER ${sql.identifier(name)}`);
  await db.run(sql.raw(statement));
  for (const { sql: made } of away) await db.run(sql.raw(made));
}

describe("the copies of rows", () => {
  it("are kept of every column that no event tells of and none is named with its reason: a new one needs what is printed here", async () => {
    const db = await freshDatabase();
    const there = (await triggersOf(db)).map(({ sql: made }) => made);
    const wanted = (await copiedTables(db)).flatMap(copyTriggers);
    expect(wanted.length).toBeGreaterThan(90);
    expect(wanted.filter((made) => !there.includes(made)).join(";\n--> statement-breakpoint\n")).toBe("");
    expect(there.filter((made) => made.includes("row_copies") && !wanted.includes(made))).toEqual([]);
  });

  it("are left out of nothing that is not there", async () => {
    const { kept } = await tablesOf(await freshDatabase());
    const columns = new Map(kept.map(({ name, columns }) => [name, columns]));
    expect(Object.keys(UNCOPIED).filter((table) => !columns.has(table))).toEqual([]);
    for (const [table, left] of Object.entries(UNCOPIED_COLUMNS))
      expect(columns.get(table)).toEqual(expect.arrayContaining(Object.keys(left)));
  });

  it("are those of a shop's life, with nothing to say", async () => {
    const { db } = await livedIn();
    const copied = await values<[string, number]>(db, sql`SELECT of, count(*) FROM row_copies GROUP BY of`);
    expect(copied.length).toBeGreaterThan(15);
    expect(await said(db)).toEqual([]);
  });

  it("follow a row that is put in, written over, changed with all others, and taken out", async () => {
    const db = await freshDatabase();
    const put = (window: string) =>
      sql`INSERT INTO standard_costs VALUES ('GBP', ${window}, '2026-11', 1, 1, 5, 6, 7) ON CONFLICT DO UPDATE SET cost = cost + excluded.cost`;
    for (const window of ["fit 'a' \"new\" cell", "b", "b"]) await db.run(put(window));
    await db.run(sql`UPDATE standard_costs SET taken = taken * 2`);
    const bodies = sql`SELECT id, body FROM row_copies ORDER BY id`;
    expect(await values(db, bodies)).toEqual([
      [JSON.stringify(["GBP", "b", "2026-11"]), "[1,1,5,12,14]"],
      [JSON.stringify(["GBP", "fit 'a' \"new\" cell", "2026-11"]), "[1,1,5,12,7]"],
    ]);
    await db.run(sql`UPDATE standard_costs SET standard = 'c' WHERE standard = 'b'`);
    expect(await said(db)).toEqual([]);
    await db.run(sql`DELETE FROM standard_costs WHERE standard <> 'c'`);
    expect(await values(db, bodies)).toEqual([[JSON.stringify(["GBP", "c", "2026-11"]), "[1,1,5,12,14]"]]);
  });

  it("of JSON that SQL itself made are the text that stands in the row", async () => {
    const { db } = await livedIn();
    await db.run(sql`UPDATE models SET map = json_set(map, '$.notes', 'x')`);
    await db.run(sql`INSERT INTO mappings VALUES ('b', 1, 'x', 'y', 'owners', json_array('q'), json('[1]'), '[]', 'm')`);
    await db.run(sql`UPDATE mappings SET types = json_array(1, 'é')`);
    expect(await said(db)).toEqual([]);
  });

  it("are not counted among the rows that a write changed", async () => {
    const { db } = await livedIn();
    expect((await db.run(sql`UPDATE owners SET version = version + 1`)).rowsAffected).toBe(
      (await values<[number]>(db, sql`SELECT count(*) FROM owners`))[0]![0],
    );
  });
});

describe("a row and a copy that differ", () => {
  it("are told of with table, row, column and both values, a secret without", async () => {
    const { db } = await livedIn();
    await spoilt(db, "UPDATE units SET serial = 'KT-1842' WHERE rowid = 1");
    await db.run(sql`INSERT INTO send_hooks VALUES ('hook', 1, '2026-11-28', '2026-11-28', NULL, 'whsec_b2huZQ==')`);
    await spoilt(db, "UPDATE send_hooks SET secret = 'whsec_b2huZR=='");
    const [unit] = await values<[string]>(db, sql`SELECT id FROM units WHERE rowid = 1`);
    const told = await said(db);
    expect(told).toHaveLength(2);
    expect(told.find((text) => text.includes("serial"))).toMatch(
      new RegExp(
        `^Unit '${unit![0]}': 'serial' is not what was written: it says 'KT-1842', its copy says .+; it was changed or is damaged\\.$`,
      ),
    );
    expect(told.find((text) => text.includes("hook"))).toBe(
      "Row 'hook' of send_hooks: 'secret' is not what was written; it was changed or is damaged.",
    );
  });

  it("of a long text are quoted where they part", async () => {
    const { db } = await livedIn();
    await spoilt(db, "UPDATE models SET map = replace(map, 'e', 'é') WHERE rowid = 1");
    const [told] = await said(db);
    expect(told).toMatch(/^Model '.+': 'map' is not what was written: it says '.{1,62}', its copy says '.{1,62}'; it was/);
    const [, row, copy] = /says '(.+)', its copy says '(.+)'; it was/.exec(told!)!;
    expect(row).toContain("é");
    expect(copy).not.toContain("é");
  });

  it("stay told of while the row is written elsewhere, and no longer once that very column is", async () => {
    const { db } = await livedIn();
    const owner = sql`(SELECT min(id) FROM owners)`;
    await spoilt(db, "UPDATE owners SET phone = '555 0113' WHERE id = (SELECT min(id) FROM owners)");
    await db.run(sql`UPDATE owners SET email = 'bench@ohm.example', version = version + 1 WHERE id = ${owner}`);
    expect(await said(db)).toEqual([expect.stringMatching(/^Owner '.+': 'phone' is not what was written: it says '555 0113'/)]);
    await db.run(sql`UPDATE owners SET phone = '555 0112', version = version + 1 WHERE id = ${owner}`);
    expect(await said(db)).toEqual([]);
  });

  it("is one told of where either is missing, and where a copy cannot be read, which hinders no write", async () => {
    const { db } = await livedIn();
    await spoilt(
      db,
      "INSERT INTO offers SELECT 'forged', version, created_at, updated_at, kind, source, offered_on, currency, 1, pack_size, minimum_packs, available, lead_days, state, share_good, freight, pull_minutes, seen_good, withdrawal, donor, duty_percent, import_tax_percent, parcel_fee FROM offers LIMIT 1",
    );
    const [gone] = await values<[string]>(db, sql`SELECT id FROM offers WHERE id <> 'forged' LIMIT 1`);
    await spoilt(db, `DELETE FROM offers WHERE id = '${gone![0]}'`);
    await db.run(sql`UPDATE row_copies SET body = '[' || body WHERE of = 'settings'`);
    await db.run(sql`UPDATE settings SET version = version + 1`);
    await db.run(sql`UPDATE row_copies SET of = 'nothing' WHERE rowid = (SELECT max(rowid) FROM row_copies WHERE of = 'units')`);
    const told = (await said(db)).join("\n");
    expect(told).toContain("Offer 'forged' has no copy beside it; it was put in by hand, or its copy was taken away.");
    expect(told).toContain(`Offer '${gone![0]}' is gone and only its copy is left; it was taken out by hand.`);
    expect(told).toMatch(/Row '.+' of settings: its copy cannot be read/);
    expect(told).toMatch(/Unit '.+' has no copy beside it/);
    expect(told).toMatch(/Row '.+' of nothing is gone and only its copy is left/);
  });

  it("still differ after a backup was put back: damage is carried along, not papered over", async () => {
    const { db, folder } = await livedIn();
    await spoilt(db, "UPDATE units SET serial = 'KT-1842' WHERE rowid = 1");
    const bytes = await new Response(zipped(backupLines(db, "2026-11-28T21:00:00.000Z"))).blob();
    const { opened } = await restoreFile(
      join(folder, "restored.db"),
      () => bytes.stream() as ReadableStream<Uint8Array>,
      async () => undefined,
    );
    onTestFinished(() => opened!.close());
    const { mismatch, others } = await verifyShop(opened!.db);
    expect(mismatch?.what).toMatchObject({ is: "row not as copied", in: "units", column: "serial", says: "KT-1842" });
    expect(others).toBeUndefined();
  });
});
