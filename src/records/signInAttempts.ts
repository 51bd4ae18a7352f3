/** Failed sign-ins, counted per window over the whole shop: there is one secret, so one counter. */
import { eq, lt, sql } from "drizzle-orm";
import { integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database } from "./database.js";

export const signInAttemptsTable = sqliteTable("sign_in_attempts", {
  /** Start of the window. */
  window: text("window").primaryKey(),
  failures: integer("failures").notNull(),
});

const WINDOW = 15 * 60_000;
export const FAILURES_ALLOWED = 20;

const windowOf = (now: Date) => new Date(Math.floor(now.getTime() / WINDOW) * WINDOW);

export const signInAttempts = {
  /** Seconds to wait, or 0 when another attempt is allowed. */
  wait: async (db: Database, now: Date): Promise<number> => {
    const start = windowOf(now);
    const [row] = await db.select().from(signInAttemptsTable).where(eq(signInAttemptsTable.window, start.toISOString()));
    if (!row || row.failures < FAILURES_ALLOWED) return 0;
    return Math.ceil((start.getTime() + WINDOW - now.getTime()) / 1000);
  },

  failed: async (db: Database, now: Date): Promise<void> => {
    const window = windowOf(now).toISOString();
    await db.batch([
      db.delete(signInAttemptsTable).where(lt(signInAttemptsTable.window, window)),
      db
        .insert(signInAttemptsTable)
        .values({ window, failures: 1 })
        .onConflictDoUpdate({ target: signInAttemptsTable.window, set: { failures: sql`failures + 1` } }),
    ]);
  },
};
