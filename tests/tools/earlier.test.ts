/** Databases as earlier programs left them (fixtures/earlier, each written by the code of its time) are taken over whole. */
import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { sql } from "drizzle-orm";
import { describe, expect, it, onTestFinished } from "vitest";
import { backupLines } from "../../src/records/backup/dump.js";
import { schemaOf } from "../../src/records/backup/tables.js";
import { values } from "../../src/records/backup/values.js";
import { zipped } from "../../src/records/backup/zip.js";
import { connectFile } from "../../src/records/connectFile.js";
import type { Database } from "../../src/records/database.js";
import { estimates } from "../../src/records/estimates.js";
import { jobs } from "../../src/records/jobs.js";
import { SCHEMA_VERSION } from "../../src/records/schemaVersion.js";
import { staff } from "../../src/records/staff.js";
import { shortHead } from "../../src/records/trail.js";
import { restoreFile } from "../../src/tools/backup/restoreFile.js";
import { migrateDatabase } from "../../src/tools/migrateDatabase.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { person, signedIn } from "../http/support/people.js";
import { shop } from "../http/support/shop.js";

const FOLDER = "fixtures/earlier";
const kept = (await readdir(FOLDER)).filter((name) => name.endsWith(".db.gz"));
const numberOf = (name: string): number => Number(/\d+/.exec(name)![0]);

async function copied(name: string) {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  const path = join(folder, "ohmwright.db");
  await writeFile(path, gunzipSync(await readFile(join(FOLDER, name))));
  const { db, close } = await connectFile(`file:${path}`);
  onTestFinished(async () => {
    close();
    await rm(folder, { recursive: true });
  });
  return { db, folder };
}

/** Of each job its number and the head of its chain, and of each revision what it came to. */
async function standing(db: Database) {
  // The first schema kept no events yet.
  const [chained] = await values(db, sql`SELECT 1 FROM sqlite_master WHERE name = 'events'`);
  const last = sql`SELECT job_id, max(number), hash FROM events GROUP BY job_id ORDER BY 1`;
  const heads = chained ? await values<[string, number, string]>(db, last) : [];
  const revisions = await values<[string, number, string, number | null]>(
    db,
    sql`SELECT job_id, revision, content_hash, sheet ->> '$.totals.total' FROM estimates ORDER BY 1, 2`,
  );
  return { heads: heads.map(([job, number, hash]) => [job, shortHead({ number, hash })]), revisions };
}

const restoredFrom = async (bytes: Blob, path: string): Promise<Database> => {
  const { restored, opened } = await restoreFile(
    path,
    () => bytes.stream() as ReadableStream<Uint8Array>,
    async () => undefined,
  );
  expect(restored.is).toBe("restored");
  onTestFinished(() => opened!.close());
  return opened!.db;
};

describe("a database of an earlier version", () => {
  it("is kept for each version that was in use, up to the one before today's", () => {
    // Between the second and the twelfth nobody but their makers ran one.
    const ended = Array.from({ length: SCHEMA_VERSION - 12 }, (_, at) => 12 + at);
    expect(kept.map(numberOf).filter((number) => number < SCHEMA_VERSION)).toEqual([1, 2, ...ended]);
  });

  it.each(kept)("%s is migrated, verified, and its jobs and papers open", async (name) => {
    const { db } = await copied(name);
    expect(await schemaOf(db)).toBe(numberOf(name));
    await migrateDatabase(db);
    expect(await schemaOf(db)).toBe(SCHEMA_VERSION);
    const verified = await verifyShop(db);
    expect(verified.mismatch).toBeUndefined();
    expect(verified.jobs).toBeGreaterThan(2);

    const opened = { ...(await shop({ openDatabase: () => db })), db };
    // Whoever ran the shop still does.
    const manager = (await staff.anyone(db)) ? "staff-1" : await person(opened, "Wilhelmina Stråhle", "manager");
    const desk = await signedIn(opened, manager);
    const failed: unknown[] = [];
    const open = async (path: string, type: string) => {
      const answer = await desk.get(path);
      if (answer.status !== 200 || !answer.headers.get("content-type")!.startsWith(type)) failed.push([path, answer.status]);
      await answer.arrayBuffer();
    };
    const issued = await values<[string]>(db, sql`SELECT id FROM estimates WHERE issued_at IS NOT NULL`);
    expect(issued.length).toBeGreaterThan(0);
    for (const { id } of (await jobs.list(db, { limit: 50 })).rows) {
      for (const page of ["", "/trail", "/work-log", "/papers"]) await open(`/jobs/${id}${page}`, "text/html");
      for (const estimate of await estimates.ofJob(db, id)) {
        await open(`/estimates/${estimate.id}.pdf`, "application/pdf");
        await open(`/estimates/${estimate.id}/bench-sheet.pdf`, "application/pdf");
      }
    }
    for (const path of ["/", "/find?q=tape", "/models", "/parts", "/rate-book", "/looking-back", "/settings", "/staff"])
      await open(path, "text/html");
    expect(failed).toEqual([]);
  });

  it.each(kept)(
    "%s backed up as it stands is restored into today's: each revision reckoned again, each chain with its head",
    async (name) => {
      const { db, folder } = await copied(name);
      const before = await standing(db);
      expect(before.revisions.length).toBeGreaterThan(2);
      const bytes = await new Response(zipped(backupLines(db, "2026-11-28T21:00:00.000Z"))).blob();
      const restored = await restoredFrom(bytes, join(folder, "restored.db"));
      expect(await schemaOf(restored)).toBe(SCHEMA_VERSION);
      expect(await standing(restored)).toEqual(before);
      const numbers = await values<[string, number, number]>(restored, sql`SELECT id, year, sequence FROM jobs`);
      const heads = new Map(
        numbers.map(([id, year, sequence]) => [
          `J-${year}-${String(sequence).padStart(4, "0")}`,
          before.heads.flatMap(([job, head]) => (job === id ? [head!] : [])),
        ]),
      );
      const verified = await verifyShop(restored, heads);
      expect(verified).toMatchObject({ revisions: before.revisions.length });
      expect(verified.mismatch).toBeUndefined();
    },
  );

  it("whose figure was changed by a cent before it was backed up is not taken for sound", async () => {
    const { db, folder } = await copied(kept.at(-1)!);
    await db.run(sql`DROP TRIGGER issued_estimates_stay`);
    await db.run(
      sql`UPDATE estimates SET sheet = json_set(sheet, '$.totals.total', 1 + (sheet ->> '$.totals.total')) WHERE issued_at IS NOT NULL AND revision = 1`,
    );
    const bytes = await new Response(zipped(backupLines(db, "2026-11-28T21:00:00.000Z"))).blob();
    const restored = await restoredFrom(bytes, join(folder, "restored.db"));
    expect((await verifyShop(restored)).mismatch).toMatchObject({ what: { is: "content hash", revision: 1 } });
  });
});
