/** Challenges of passkey ceremonies that were answered: each is good for one answer. */
import { lt } from "drizzle-orm";
import { sqliteTable, text } from "drizzle-orm/sqlite-core";
import { isTaken } from "./constraint.js";
import type { Database, Instant } from "./database.js";
import { sha256 } from "./sha256.js";

export const spentChallengesTable = sqliteTable("spent_challenges", {
  hash: text("hash").primaryKey(),
  expiresAt: text("expires_at").notNull(),
});

/** False: it was answered before. Kept until it would have expired anyway. */
export async function spendChallenge(db: Database, challenge: string, expiresAt: Instant, now: Instant): Promise<boolean> {
  try {
    await db.batch([
      db.delete(spentChallengesTable).where(lt(spentChallengesTable.expiresAt, now)),
      db.insert(spentChallengesTable).values({ hash: await sha256(challenge), expiresAt }),
    ]);
    return true;
  } catch (error) {
    if (isTaken(error)) return false;
    throw error;
  }
}
