/** Writes fixtures/earlier/schema-NN.db.gz: the demo shop, two people and one job lived in, by today's code. Run before a migration lands. */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { sql } from "drizzle-orm";
import { connectFile } from "../../../src/records/connectFile.js";
import { SCHEMA_VERSION } from "../../../src/records/schemaVersion.js";
import { joining, newStaff, ROLES, staff } from "../../../src/records/staff.js";
import { loadDemo } from "../../../src/tools/demo.js";
import { migrateDatabase } from "../../../src/tools/migrateDatabase.js";
import { at, livedIn } from "../../records/support/livedIn.js";

const folder = await mkdtemp(join(tmpdir(), "ohmwright-earlier-"));
const { db, close } = await connectFile(`file:${folder}/shop.db`);
await migrateDatabase(db);
await loadDemo(db, JSON.parse(await readFile("fixtures/demo/shop.json", "utf8")), at(0));
const names = ["Wilhelmina Stråhle", "Tamsin Orrell"];
for (const [index, role] of ROLES.entries()) {
  await staff.adding(db, newStaff(`staff-${index + 1}`, names[index]!, role, at(0)));
  await joining(db, `staff-${index + 1}`, at(0));
}
await livedIn(db);
await db.run(sql`VACUUM INTO ${join(folder, "whole.db")}`);
close();
const name = `fixtures/earlier/schema-${String(SCHEMA_VERSION).padStart(2, "0")}.db.gz`;
await writeFile(name, gzipSync(await readFile(join(folder, "whole.db")), { level: 9 }));
await rm(folder, { recursive: true });
process.stdout.write(`${name}\n`);
