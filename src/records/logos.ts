/** Pictures that stand or stood at the top of the shop's documents. Named by their content and never changed: an issued estimate names its own. */
import { eq } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import { integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { bytes } from "./bytes.js";
import type { Database, Instant } from "./database.js";
import { sha256 } from "./sha256.js";

export interface Logo {
  readonly kind: "png" | "jpeg";
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  readonly bytes: Uint8Array;
}

export const logosTable = sqliteTable("logos", {
  /** SHA-256 of the bytes, in hex. */
  id: text("id").primaryKey(),
  addedAt: text("added_at").notNull(),
  kind: text("kind").$type<Logo["kind"]>().notNull(),
  width: integer("width").notNull(),
  height: integer("height").notNull(),
  bytes: bytes("bytes").notNull(),
});

export const logos = {
  find: async (db: Database, id: string): Promise<Logo | undefined> => {
    const [row] = await db.select().from(logosTable).where(eq(logosTable.id, id));
    return row;
  },

  /** The same picture twice is kept once. */
  made: async (db: Database, logo: Logo, at: Instant) => {
    const id = await sha256(logo.bytes);
    // A function, because a statement that is awaited runs.
    const write = (): BatchItem<"sqlite"> =>
      db
        .insert(logosTable)
        .values({ ...logo, id, addedAt: at })
        .onConflictDoNothing();
    return { id, write };
  },

  ids: async (db: Database): Promise<string[]> => (await db.select({ id: logosTable.id }).from(logosTable)).map(({ id }) => id),
};
