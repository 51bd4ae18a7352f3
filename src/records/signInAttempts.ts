/** Sign-ins tried and not let in, per caller and window of time. A caller is a keyed hash of an address, never the address. */
import { and, eq, gt, inArray, lt, sql } from "drizzle-orm";
import { integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database } from "./database.js";
import { FAILURES_MINUTES } from "./entryTerms.js";

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

/** One name under which tries are counted, and how many may be wrong. */
export interface Counted {
  readonly caller: string;
  readonly allowed: number;
}

export const signInAttempts = {
  /**
   * Counts a try before it is made, so that two hundred sent at once are two hundred. Seconds to wait, or 0 when it may be made; names
   * after one that closed are not counted, so that who is refused at one place closes no account.
   */
  begin: async (db: Database, counted: readonly Counted[], now: Date): Promise<number> => {
    const window = windowOf(now).toISOString();
    for (const { caller, allowed } of counted) {
      const [, [row]] = await db.batch([
        db.delete(signInAttemptsTable).where(lt(signInAttemptsTable.window, window)),
        db
          .insert(signInAttemptsTable)
          .values({ window, caller, failures: 1 })
          .onConflictDoUpdate({
            target: [signInAttemptsTable.window, signInAttemptsTable.caller],
            set: { failures: sql`failures + 1` },
          })
          .returning({ failures: signInAttemptsTable.failures }),
      ]);
      if (row!.failures > allowed) return Math.ceil((Date.parse(window) + WINDOW - now.getTime()) / 1000);
    }
    return 0;
  },

  /** It was right, or none was made: not counted after all. */
  takeBack: async (db: Database, counted: readonly Counted[], now: Date): Promise<void> => {
    const window = windowOf(now).toISOString();
    const callers = counted.map(({ caller }) => caller);
    await db.batch([
      db
        .update(signInAttemptsTable)
        .set({ failures: sql`failures - 1` })
        .where(
          and(
            eq(signInAttemptsTable.window, window),
            inArray(signInAttemptsTable.caller, callers),
            gt(signInAttemptsTable.failures, 0),
          ),
        ),
    ]);
  },
};
