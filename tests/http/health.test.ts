import { describe, expect, it } from "vitest";
import journal from "../../migrations/meta/_journal.json" with { type: "json" };
import type { Database } from "../../src/records/database.js";
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
});
