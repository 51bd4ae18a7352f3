/** What signs cookies where no secret is set: made once, kept in the database of this machine. */
import { sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database, Instant } from "./database.js";
import { randomText } from "./secrets.js";

export const signingKeysTable = sqliteTable("signing_keys", {
  id: text("id").primaryKey(),
  key: text("key").notNull(),
  madeAt: text("made_at").notNull(),
});

export async function signingKey(db: Database, at: Instant): Promise<string> {
  const [kept] = await db.select().from(signingKeysTable);
  if (kept) return kept.key;
  await db
    .insert(signingKeysTable)
    .values({ id: "cookies", key: randomText(32), madeAt: at })
    .onConflictDoNothing();
  const [made] = await db.select().from(signingKeysTable);
  return made!.key;
}
