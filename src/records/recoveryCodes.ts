/** Codes, each good for one sign-in when every other way is lost. 100 bits each, kept as SHA-256; new ones end the old. */
import { and, eq, isNull, sql } from "drizzle-orm";
import { index, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database, Instant } from "./database.js";
import { RECOVERY_CODES } from "./entryTerms.js";
import { newCode, plainCode } from "./secrets.js";
import { sha256 } from "./sha256.js";
import { staffTable } from "./staff.js";

export const recoveryCodesTable = sqliteTable(
  "recovery_codes",
  {
    codeHash: text("code_hash").primaryKey(),
    staffId: text("staff_id")
      .notNull()
      .references(() => staffTable.id),
    madeAt: text("made_at").notNull(),
    usedAt: text("used_at"),
  },
  (table) => [index("recovery_codes_staff").on(table.staffId)],
);

const hashOf = (code: string): Promise<string> => sha256(`recovery:${plainCode(code)}`);

/** XXXXX-XXXXX-XXXXX-XXXXX, told once. */
export async function newRecoveryCodes(staffId: string, at: Instant) {
  const codes = Array.from({ length: RECOVERY_CODES }, () => `${newCode()}-${newCode()}`);
  const rows = await Promise.all(codes.map(async (code) => ({ codeHash: await hashOf(code), staffId, madeAt: at })));
  return { codes, rows };
}

export const recoveryCodes = {
  /** For a batch: the second ends those made before. */
  replacing: (db: Database, staffId: string, rows: Awaited<ReturnType<typeof newRecoveryCodes>>["rows"]) =>
    [
      db.delete(recoveryCodesTable).where(eq(recoveryCodesTable.staffId, staffId)),
      db.insert(recoveryCodesTable).values(rows),
    ] as const,

  /** For a batch. */
  removeAll: (db: Database, staffId: string) => db.delete(recoveryCodesTable).where(eq(recoveryCodesTable.staffId, staffId)),

  left: async (db: Database, staffId: string): Promise<number> => {
    const unused = and(eq(recoveryCodesTable.staffId, staffId), isNull(recoveryCodesTable.usedAt));
    const [row] = await db.select({ count: sql<number>`count(*)` }).from(recoveryCodesTable).where(unused);
    return row?.count ?? 0;
  },

  /** Whose code it was; it is spent by asking, also when asked twice at once. */
  spend: async (db: Database, code: string, at: Instant): Promise<string | undefined> => {
    const [row] = await db
      .update(recoveryCodesTable)
      .set({ usedAt: at })
      .where(and(eq(recoveryCodesTable.codeHash, await hashOf(code)), isNull(recoveryCodesTable.usedAt)))
      .returning();
    return row?.staffId;
  },
};
