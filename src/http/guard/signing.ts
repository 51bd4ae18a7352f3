/** What cookies are signed and callers named with: the shop's secret, so that a new one ends every pass and session; without one, a key of this machine. */
import type { Context } from "hono";
import type { Database } from "../../records/database.js";
import { signingKey } from "../../records/signingKey.js";
import type { AppEnv } from "../bindings.js";

/** Asked for once a database. */
const kept = new WeakMap<Database, Promise<string>>();

export function signingKeyOf(c: Context<AppEnv>, secret: string | undefined): Promise<string> {
  if (secret !== undefined) return Promise.resolve(secret);
  const { db } = c.var;
  const key = kept.get(db) ?? signingKey(db, c.var.clock().toISOString());
  kept.set(db, key);
  return key;
}
