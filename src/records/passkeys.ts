/** Public keys of people's passkeys (W3C Web Authentication). Nothing here is secret. */
import { and, asc, eq } from "drizzle-orm";
import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database, Instant } from "./database.js";
import { withoutNulls } from "./noun.js";
import { staffTable } from "./staff.js";

export const passkeysTable = sqliteTable(
  "passkeys",
  {
    /** The credential's id, base64url. */
    id: text("id").primaryKey(),
    staffId: text("staff_id")
      .notNull()
      .references(() => staffTable.id),
    name: text("name").notNull(),
    /** The host it is bound to: the RP ID. */
    site: text("site").notNull(),
    /** COSE key, base64url. */
    publicKey: text("public_key").notNull(),
    /** As the authenticator last told it; many always tell 0. */
    counter: integer("counter").notNull(),
    transports: text("transports", { mode: "json" }).$type<readonly string[]>().notNull(),
    madeAt: text("made_at").notNull(),
    usedAt: text("used_at"),
  },
  (table) => [index("passkeys_staff").on(table.staffId)],
);

export interface Passkey {
  readonly id: string;
  readonly staffId: string;
  readonly name: string;
  readonly site: string;
  readonly publicKey: string;
  readonly counter: number;
  readonly transports: readonly string[];
  readonly madeAt: Instant;
  readonly usedAt?: Instant;
}

const own = (staffId: string, id: string) => and(eq(passkeysTable.staffId, staffId), eq(passkeysTable.id, id));

export const passkeys = {
  find: async (db: Database, id: string): Promise<Passkey | undefined> => {
    const [row] = await db.select().from(passkeysTable).where(eq(passkeysTable.id, id));
    return row && withoutNulls<Passkey>(row);
  },

  of: async (db: Database, staffId: string): Promise<Passkey[]> => {
    const rows = await db
      .select()
      .from(passkeysTable)
      .where(eq(passkeysTable.staffId, staffId))
      .orderBy(asc(passkeysTable.madeAt));
    return rows.map((row) => withoutNulls<Passkey>(row));
  },

  /** For a batch. */
  adding: (db: Database, passkey: Passkey) => db.insert(passkeysTable).values(passkey as typeof passkeysTable.$inferInsert),

  used: (db: Database, id: string, counter: number, at: Instant) =>
    db.update(passkeysTable).set({ counter, usedAt: at }).where(eq(passkeysTable.id, id)),

  rename: (db: Database, staffId: string, id: string, name: string) =>
    db.update(passkeysTable).set({ name }).where(own(staffId, id)),

  /** For good: whoever holds the device can no longer come in by it. */
  remove: (db: Database, staffId: string, id: string) => db.delete(passkeysTable).where(own(staffId, id)),

  removeAll: (db: Database, staffId: string) => db.delete(passkeysTable).where(eq(passkeysTable.staffId, staffId)),
};
