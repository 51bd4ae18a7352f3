import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { backupLines } from "../../src/records/backup/dump.js";
import { schemaOf } from "../../src/records/backup/tables.js";
import { zipped } from "../../src/records/backup/zip.js";
import { connectFile } from "../../src/records/connectFile.js";
import { photoFolder } from "../../src/records/photoFolder.js";
import { fileSource, migrateTo, migrations, restoreFile } from "../../src/tools/backup/restoreFile.js";
import { loadDemo } from "../../src/tools/demo.js";
import { migrateDatabase } from "../../src/tools/migrateDatabase.js";
import { demo } from "../http/support/shop.js";
import { at, livedIn, photographed, TAPE_ECHO } from "../records/support/livedIn.js";

let folder: string;
const PHOTO = Uint8Array.from([0xff, 0xd8, 0xff, 1, 2, 3]);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ohmwright-backup-test-"));
  await mkdir(join(folder, "live"));
  const { db, close } = await connectFile(`file:${folder}/live/ohmwright.db`);
  await migrateDatabase(db);
  await loadDemo(db, await demo(), at(0));
  await livedIn(db);
  await photographed(db, TAPE_ECHO, "counter-photo", PHOTO, at(20), photoFolder(join(folder, "live/photos")));
  close();
}, 30_000);
afterAll(() => rm(folder, { recursive: true }));

function run(tool: "backup" | "restore", ...args: readonly string[]) {
  const env = { ...process.env, LIBSQL_URL: "", OHMWRIGHT_DATA: "" };
  const { status, stdout, stderr } = spawnSync(process.execPath, ["--import", "tsx", `src/tools/${tool}.ts`, ...args], {
    env,
    encoding: "utf8",
  });
  return { status, said: `${stdout}${stderr}` };
}

describe("npm run backup and npm run restore", () => {
  it("put the whole shop into a file and back, photos too, and say so; what was there is kept", async () => {
    const file = join(folder, "shop.backup.gz");
    const made = run("backup", file, "--data", join(folder, "live"));
    expect(made).toEqual({
      status: 0,
      said: expect.stringMatching(/\d+ rows of \d+ tables, \d+ photos, \d+ bytes\. Read back and sound\./),
    });
    const target = join(folder, "restored");
    // Photos of a shop whose database is gone are nobody's to lose.
    await photoFolder(join(target, "photos")).put("counter-photo", Uint8Array.from([1]), "image/jpeg");
    expect(run("restore", file, "--data", target)).toEqual({
      status: 0,
      said: expect.stringMatching(/4 jobs restored[\s\S]*Everything matches\./),
    });
    expect(new Uint8Array(await readFile(join(target, "photos/counter-photo")))).toEqual(PHOTO);
    expect(run("restore", file, "--data", target)).toEqual({ status: 2, said: expect.stringMatching(/holds a shop/) });
    expect(run("restore", file, "--data", target, "--replace").said).toMatch(
      /is kept as .*before-restore-.*\.db\.[\s\S]*Everything matches/,
    );
    const aside = (await readdir(target)).filter((name) => name.startsWith("before-restore-")).sort();
    expect(aside.map((name) => name.replace(/.*Z/, ""))).toEqual(["-photos", "-photos", ".db"]);
    expect(new Uint8Array(await readFile(join(target, aside[0]!, "counter-photo")))).toEqual(Uint8Array.from([1]));
  }, 60_000);
});

describe("a backup of an older version", () => {
  it("is restored into tables of its age, then migrated", async () => {
    const { db, close } = await connectFile(`file:${folder}/old.db`);
    await migrateTo(db, 2);
    expect(await schemaOf(db)).toBe(2);
    const row = sql`'s', 1, '', '', 'Film 100 nF', 'film', 7`;
    await db.run(sql`INSERT INTO part_kinds (id, version, created_at, updated_at, name, type, stock) VALUES (${row})`);
    close();
    const opened = await restoredFrom("old");
    expect(await schemaOf(opened.db)).toBe(migrations().length);
    // Migration 0003 begins a book of stock from what the catalogue said.
    const moved = await opened.db.all(sql`SELECT kind, stands_at FROM stock_movements`);
    expect(moved).toEqual([{ kind: "s", stands_at: 7 }]);
    opened.close();
    expect(existsSync(join(folder, "old-restored.db"))).toBe(true);
  });

  it("has managers in place of what were the shop's owners, and technicians as they were", async () => {
    const { db, close } = await connectFile(`file:${folder}/owners.db`);
    await migrateTo(db, 13);
    for (const [id, role] of ["owner", "technician"].entries())
      await db.run(
        sql`INSERT INTO staff VALUES (${`s-${id}`}, 1, ${at(0)}, ${at(0)}, ${role}, ${role}, ${role}, ${at(0)}, NULL)`,
      );
    close();
    const opened = await restoredFrom("owners");
    const roles = await opened.db.all(sql`SELECT name, role, version FROM staff ORDER BY id`);
    expect(roles).toEqual([
      { name: "owner", role: "manager", version: 2 },
      { name: "technician", role: "technician", version: 1 },
    ]);
    opened.close();
  });

  /** The database of this name, backed up and restored. */
  async function restoredFrom(name: string) {
    const { db, close } = await connectFile(`file:${join(folder, name)}.db`);
    const bytes = await new Response(zipped(backupLines(db, at(0)))).arrayBuffer();
    close();
    await writeFile(join(folder, `${name}.gz`), new Uint8Array(bytes));
    const source = fileSource(join(folder, `${name}.gz`));
    const { restored, opened } = await restoreFile(join(folder, `${name}-restored.db`), source, async () => undefined);
    expect(restored.is).toBe("restored");
    return opened!;
  }
});
