import { mkdtemp, rm, symlink } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import journal from "../../migrations/meta/_journal.json" with { type: "json" };
import type { Database } from "../../src/records/database.js";
import { photoFolder } from "../../src/records/photoFolder.js";
import { SCHEMA_VERSION } from "../../src/records/schemaVersion.js";
import { shop } from "./support/shop.js";

const ask = async (open?: () => Database | undefined, before?: (db: Database) => Promise<unknown>) => {
  const { db, call } = await shop(open ? { openDatabase: open } : {});
  await before?.(db);
  const response = await call("/health");
  return [response.status, await response.json()];
};

describe("/health", () => {
  it("knows how many migrations there are", () => {
    expect(SCHEMA_VERSION).toBe(journal.entries.length);
  });

  it("is well when the database answers with the tables of this program", async () => {
    expect(await ask()).toEqual([200, { status: "ok", database: "as expected" }]);
  });

  it("says what is wrong with the database, and nothing of the shop", async () => {
    const failing = (database: string) => [503, { status: "failing", database }];
    expect(await ask(() => undefined)).toEqual(failing("not set up"));
    const unreachable = () => {
      throw new Error("The URL 'libsql://secret-name' is not valid");
    };
    expect(await ask(unreachable)).toEqual(failing("silent"));
    const change = (statement: string) => ask(undefined, (db) => db.run(statement));
    expect(await change("DROP TABLE __drizzle_migrations")).toEqual(failing("without tables"));
    expect(await change("DELETE FROM __drizzle_migrations WHERE rowid = 1")).toEqual(failing("older"));
    expect(await change("INSERT INTO __drizzle_migrations (hash, created_at) VALUES ('x', 1)")).toEqual(failing("newer"));
  });

  it("and a write say that the place is full or cannot be written to, until one is kept again", async () => {
    const { db, call, send } = await shop();
    const health = async () => (await (await call("/health")).json()) as object;
    const keep = () => send("POST", "/api/owners", { name: "Ottilie Larkholt", notes: "x".repeat(4000) });
    const pages = (await db.run("PRAGMA page_count")).rows[0]!.page_count;
    for (const [fill, empty, why] of [
      [`PRAGMA max_page_count = ${pages}`, "PRAGMA max_page_count = 1000000", "the disk is full"],
      ["PRAGMA query_only = ON", "PRAGMA query_only = OFF", "it cannot be written to"],
    ] as const) {
      await db.run(fill);
      let refused = await keep();
      for (let times = 0; refused.status === 201 && times < 50; times += 1) refused = await keep();
      expect([refused.status, await refused.json()]).toMatchObject([
        503,
        { type: "/problems/place-unfit", detail: expect.stringContaining(why) },
      ]);
      expect(await health()).toEqual({ status: "failing", database: "cannot be written to" });
      await db.run(empty);
      expect((await keep()).status).toBe(201);
      expect(await health()).toEqual({ status: "ok", database: "as expected" });
    }
  });

  // A device of Linux that takes nothing.
  it.runIf(process.platform === "linux")("says that pictures cannot be kept, until one is", async () => {
    const folder = await mkdtemp(join(tmpdir(), "ohmwright-health-"));
    const photos = photoFolder(folder);
    const { call } = await shop({ openPhotos: () => photos });
    const health = async () => (await (await call("/health")).json()) as object;
    await symlink("/dev/full", join(folder, "one.part"));
    const put = () => photos.put("one", Uint8Array.from([1, 2, 3]), "image/jpeg");
    await expect(put()).rejects.toMatchObject({ code: "ENOSPC" });
    expect(await health()).toEqual({ status: "failing", database: "as expected", photos: "cannot be written to" });
    await put();
    expect(await health()).toEqual({ status: "ok", database: "as expected" });
    await rm(folder, { recursive: true });
  });
});
