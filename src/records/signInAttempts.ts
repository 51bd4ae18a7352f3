/** Failed sign-ins per caller and window of time. A caller is a keyed hash of an address, never the address. */
import { and, eq, lt, sql } from "drizzle-orm";
import { integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database } from "./database.js";
import { FAILURES_ALLOWED, FAILURES_MINUTES } from "./entryTerms.js";

export const signInAttemptsTable = sqliteTable(
  "sign_in_attempts",
  {
    /** Its start. */
    window: text("window").notNull(),
    caller: text("caller").notNull(),
    failures: integer("failures").notNull(),
  },
  (table) => [primaryKey({ columns: [table.window, table.caller] })],
);

const WINDOW = FAILURES_MINUTES * 60_000;

const windowOf = (now: Date) => new Date(Math.floor(now.getTime() / WINDOW) * WINDOW);

/** For a batch. */
export const failuresOf = (db: Database, caller: string, now: Date) =>
  db
    .select({ failures: signInAttemptsTable.failures })
    .from(signInAttemptsTable)
    .where(and(eq(signInAttemptsTable.window, windowOf(now).toISOString()), eq(signInAttemptsTable.caller, caller)));

export function waitAfter([row]: readonly { readonly failures: number }[], now: Date): number {
  if (!row || row.failures < FAILURES_ALLOWED) return 0;
  return Math.ceil((windowOf(now).getTime() + WINDOW - now.getTime()) / 1000);
}

export const signInAttempts = {
  /** Seconds to wait, or 0 when another attempt is allowed. */
  wait: async (db: Database, caller: string, now: Date): Promise<number> => waitAfter(await failuresOf(db, caller, now), now),

  failed: async (db: Database, caller: string, now: Date): Promise<void> => {
    const window = windowOf(now).toISOString();
    await db.batch([
      db.delete(signInAttemptsTable).where(lt(signInAttemptsTable.window, window)),
      db
        .insert(signInAttemptsTable)
        .values({ window, caller, failures: 1 })
        .onConflictDoUpdate({
          target: [signInAttemptsTable.window, signInAttemptsTable.caller],
          set: { failures: sql`failures + 1` },
        }),
    ]);
  },
};
