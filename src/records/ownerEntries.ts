/** Who came in through an owner's link, and how. A cookie holds the token; only its SHA-256 is kept. A dead link ends its entries. */
import { eq } from "drizzle-orm";
import { sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database, Instant } from "./database.js";
import { type OwnerLink, ownerLinks, ownerLinksTable } from "./ownerLinks.js";
import { randomText } from "./secrets.js";
import { sha256 } from "./sha256.js";

export const ownerEntriesTable = sqliteTable("owner_entries", {
  tokenHash: text("token_hash").primaryKey(),
  linkId: text("link_id")
    .notNull()
    .references(() => ownerLinksTable.id),
  at: text("at").notNull(),
  by: text("came_by").$type<"link" | "code">().notNull(),
});

export const ownerEntries = {
  /** The token, told once: 192 bits. */
  add: async (db: Database, link: OwnerLink, by: "link" | "code", at: Instant): Promise<string> => {
    const token = randomText(24);
    await db.insert(ownerEntriesTable).values({ tokenHash: await sha256(token), linkId: link.id, at, by });
    return token;
  },

  /** The link, dead or alive, that this token came in by. */
  linkOf: async (db: Database, token: string): Promise<OwnerLink | undefined> => {
    const [entry] = await db
      .select()
      .from(ownerEntriesTable)
      .where(eq(ownerEntriesTable.tokenHash, await sha256(token)));
    return entry && ownerLinks.find(db, entry.linkId);
  },
};
