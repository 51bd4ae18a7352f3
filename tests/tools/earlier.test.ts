/** Databases as earlier programs left them (fixtures/earlier, each written by the code of its time) are taken over whole. */
import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { sql } from "drizzle-orm";
import { describe, expect, it, onTestFinished } from "vitest";
import { schemaOf } from "../../src/records/backup/tables.js";
import { values } from "../../src/records/backup/values.js";
import { connectFile } from "../../src/records/connectFile.js";
import { estimates } from "../../src/records/estimates.js";
import { jobs } from "../../src/records/jobs.js";
import { SCHEMA_VERSION } from "../../src/records/schemaVersion.js";
import { staff } from "../../src/records/staff.js";
import { migrateDatabase } from "../../src/tools/migrateDatabase.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { person, signedIn } from "../http/support/people.js";
import { shop } from "../http/support/shop.js";

const FOLDER = "fixtures/earlier";
const kept = (await readdir(FOLDER)).filter((name) => name.endsWith(".db.gz"));

async function copied(name: string) {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  const path = join(folder, "ohmwright.db");
  await writeFile(path, gunzipSync(await readFile(join(FOLDER, name))));
  const { db, close } = await connectFile(`file:${path}`);
  onTestFinished(async () => {
    close();
    await rm(folder, { recursive: true });
  });
  return db;
}

describe("a database of an earlier version", () => {
  it("is kept for each version that was in use, small enough to keep", () => {
    expect(kept.length).toBeGreaterThanOrEqual(5);
    expect(kept).toContain("schema-01.db.gz");
  });

  it.each(kept)("%s is migrated, verified, and its jobs and papers open", async (name) => {
    const db = await copied(name);
    expect(await schemaOf(db)).toBe(Number(/\d+/.exec(name)![0]));
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
});
