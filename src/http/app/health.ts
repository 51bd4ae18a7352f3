/**
 * For whoever watches the shop from outside, before any sign-in: whether the database answers and its tables are those of this
 * program. 200 'ok', else 503 'failing' with a word on what to look at; nothing of the shop.
 */
import type { Handler } from "hono";
import { schemaOf } from "../../records/backup/tables.js";
import type { Database } from "../../records/database.js";
import type { PhotoStore } from "../../records/photoStore.js";
import { SCHEMA_VERSION } from "../../records/schemaVersion.js";
import { clientOf } from "../../records/steadyClient.js";
import type { AppEnv, Bindings } from "../bindings.js";

export type DatabaseHealth =
  | "as expected"
  | "not set up"
  | "silent"
  | "without tables"
  | "older"
  | "newer"
  | "cannot be written to";

const PATIENCE_MS = 3000;

export const health =
  (
    open: (bindings: Bindings) => Database | undefined,
    openPhotos?: (bindings: Bindings) => PhotoStore | undefined,
  ): Handler<AppEnv> =>
  async (c) => {
    const database = await databaseHealth(() => open(c.env));
    // The disk may be full for a picture, and not yet for a row.
    const photos = openPhotos?.(c.env)?.trouble?.() && { photos: "cannot be written to" };
    const ok = database === "as expected" && !photos;
    return c.json({ status: ok ? "ok" : "failing", database, ...photos }, ok ? 200 : 503, { "cache-control": "no-store" });
  };

async function databaseHealth(open: () => Database | undefined): Promise<DatabaseHealth> {
  try {
    const db = open();
    if (!db) return "not set up";
    const applied = await within(PATIENCE_MS, schemaOf(db));
    // A place that refused the last write, such as a full disk.
    if (applied === SCHEMA_VERSION && clientOf(db)?.trouble) return "cannot be written to";
    return applied === SCHEMA_VERSION ? "as expected" : applied < SCHEMA_VERSION ? "older" : "newer";
  } catch (error) {
    return isAbout(error, /no such table/) ? "without tables" : "silent";
  }
}

const isAbout = (error: unknown, what: RegExp): boolean => {
  for (let at = error; at instanceof Error; at = at.cause) if (what.test(at.message)) return true;
  return false;
};

async function within<Value>(milliseconds: number, work: Promise<Value>): Promise<Value> {
  let late: ReturnType<typeof setTimeout> | undefined;
  const limit = new Promise<never>((_, reject) => {
    late = setTimeout(() => reject(new Error("No answer in time.")), milliseconds);
  });
  try {
    return await Promise.race([work, limit]);
  } finally {
    clearTimeout(late);
  }
}
