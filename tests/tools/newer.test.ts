/** A database that a newer program has migrated is touched by none of the commands. */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { copyFile, mkdir, mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sql } from "drizzle-orm";
import { describe, expect, it, onTestFinished } from "vitest";
import { connectFile } from "../../src/records/connectFile.js";
import { SCHEMA_VERSION } from "../../src/records/schemaVersion.js";
import { startEndpoint } from "../../src/tools/libsqlEndpoint.js";
import { journal } from "../../src/tools/migrateDatabase.js";
import { demoFile } from "../http/support/shop.js";

async function folder(): Promise<string> {
  const made = await mkdtemp(join(tmpdir(), "ohmwright-newer-"));
  onTestFinished(() => rm(made, { recursive: true, force: true }));
  return made;
}

/** A demo shop with one migration more than there are. */
async function newerShop(): Promise<{ readonly data: string; readonly path: string }> {
  const data = await folder();
  const path = join(data, "ohmwright.db");
  await copyFile((await demoFile()).path, path);
  const { db, close } = await connectFile(`file:${path}`);
  await db.run(sql`INSERT INTO __drizzle_migrations (hash, created_at) VALUES ('of tomorrow', ${Date.parse("2030-01-01")})`);
  await db.run("PRAGMA wal_checkpoint(TRUNCATE)");
  close();
  return { data, path };
}

async function run(tool: string, args: readonly string[], env: NodeJS.ProcessEnv = {}) {
  const child = spawn(process.execPath, ["--import", "tsx", `src/tools/${tool}.ts`, ...args], {
    env: { ...process.env, LIBSQL_URL: "", OHMWRIGHT_DATA: "", ...env },
  });
  onTestFinished(() => {
    child.kill("SIGKILL");
  });
  let said = "";
  for (const stream of [child.stdout, child.stderr]) stream.on("data", (chunk: Buffer) => (said += chunk));
  const [code] = (await once(child, "close")) as [number | null];
  return { code, said };
}

const SENTENCE = `This database was last used by a newer version of Ohmwright (it has had ${SCHEMA_VERSION + 1} migrations, this version knows ${SCHEMA_VERSION}), so nothing was touched: use that version or a later one.\n`;

describe("a database of a newer version", () => {
  it.each([
    ["npm start", "start", (data: string) => ["--port", "0", "--data", data], false],
    ["npm run migrate", "migrate", () => ["--demo"], true],
    ["npm run verify", "verify", (data: string) => ["--data", data], false],
    ["npm run backup", "backup", (data: string) => [join(data, "shop.backup.gz"), "--data", data], false],
  ])("is refused by %s in one sentence with code 3, and stays as it was", async (_, tool, args, byUrl) => {
    const { data, path } = await newerShop();
    const before = await readFile(path);
    expect(await run(tool, args(data), byUrl ? { LIBSQL_URL: `file:${path}` } : {})).toEqual({ code: 3, said: SENTENCE });
    expect((await readFile(path)).equals(before)).toBe(true);
  });

  it("is neither migrated nor restored into where it is hosted, nor taken for an empty one where it is a file", async () => {
    const { data, path } = await newerShop();
    const sound = await folder();
    await mkdir(join(sound, "live"));
    await copyFile((await demoFile()).path, join(sound, "live/ohmwright.db"));
    const file = join(sound, "shop.backup.gz");
    expect(await run("backup", [file, "--data", join(sound, "live")])).toMatchObject({ code: 0 });
    const before = await readFile(path);
    expect(await run("restore", [file, "--data", data])).toMatchObject({
      code: 2,
      said: expect.stringContaining("holds a shop"),
    });
    const endpoint = await startEndpoint(path);
    onTestFinished(endpoint.stop);
    expect(await run("migrate", [], { LIBSQL_URL: endpoint.url })).toEqual({ code: 3, said: SENTENCE });
    expect(await run("restore", [file], { LIBSQL_URL: endpoint.url, OHMWRIGHT_DATA: sound })).toEqual({
      code: 3,
      said: SENTENCE,
    });
    expect((await readFile(path)).equals(before)).toBe(true);
  });

  it("would not be told by its count alone: migrations come in the order of their moments", () => {
    const moments = journal().entries.map(({ when }) => when);
    expect(moments).toEqual([...new Set(moments)].sort((a, b) => a - b));
  });
});
