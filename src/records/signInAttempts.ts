/**
 * What may be done so often in so long: sign-ins tried and not let in, by a keyed hash of an address, never the address; prices told, by
 * the link or token that asks.
 */
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

const windowOf = (now: Date, minutes = FAILURES_MINUTES) => {
  const long = minutes * 60_000;
  const start = Math.floor(now.getTime() / long) * long;
  return { window: new Date(start).toISOString(), left: Math.ceil((start + long - now.getTime()) / 1000) };
};

/** One name under which tries are counted, and how many are taken. */
export interface Counted {
  readonly caller: string;
  readonly allowed: number;
}

export const signInAttempts = {
  /**
   * Counts a try before it is made, so that two hundred sent at once are two hundred. Seconds to wait, or 0 when it may be made; names
   * after one that closed are not counted, so that who is refused at one place closes no account.
   */
  begin: async (db: Database, counted: readonly Counted[], now: Date, minutes = FAILURES_MINUTES): Promise<number> => {
    const { window, left } = windowOf(now, minutes);
    // Of the longest of them.
    const past = windowOf(now).window;
    for (const { caller, allowed } of counted) {
      const [, [row]] = await db.batch([
        db.delete(signInAttemptsTable).where(lt(signInAttemptsTable.window, past)),
        db
          .insert(signInAttemptsTable)
          .values({ window, caller, failures: 1 })
          .onConflictDoUpdate({
            target: [signInAttemptsTable.window, signInAttemptsTable.caller],
            set: { failures: sql`failures + 1` },
          })
          .returning({ failures: signInAttemptsTable.failures }),
      ]);
      if (row!.failures > allowed) return left;
    }
    return 0;
  },

  /** It was right, or none was made: not counted after all. */
  takeBack: async (db: Database, counted: readonly Counted[], now: Date): Promise<void> => {
    const { window } = windowOf(now);
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
