/** One-time links by which a person of the staff gets a way in, the first time or after losing all others. A new link ends the one before. */
import { and, eq, gt, isNull } from "drizzle-orm";
import { sqliteTable, text } from "drizzle-orm/sqlite-core";
import { uuidv7 } from "uuidv7";
import type { Database, Instant } from "./database.js";
import { randomText } from "./secrets.js";
import { sha256 } from "./sha256.js";
import { type StaffMember, staff, staffTable } from "./staff.js";

export const invitationsTable = sqliteTable("invitations", {
  id: text("id").primaryKey(),
  secretHash: text("secret_hash").notNull().unique(),
  staffId: text("staff_id")
    .notNull()
    .references(() => staffTable.id),
  madeBy: text("made_by")
    .notNull()
    .references(() => staffTable.id),
  madeAt: text("made_at").notNull(),
  expiresAt: text("expires_at").notNull(),
  usedAt: text("used_at"),
});

export const INVITATION_DAYS = 3;

const open = (at: Instant) => and(isNull(invitationsTable.usedAt), gt(invitationsTable.expiresAt, at));

export const invitations = {
  /** The secret, told once: 192 bits. */
  add: async (db: Database, staffId: string, madeBy: string, at: Instant): Promise<string> => {
    const secret = randomText(24);
    const expiresAt = new Date(Date.parse(at) + INVITATION_DAYS * 86_400_000).toISOString();
    const row = { id: uuidv7(), secretHash: await sha256(secret), staffId, madeBy, madeAt: at, expiresAt };
    await db.batch([
      db
        .update(invitationsTable)
        .set({ expiresAt: at })
        .where(and(eq(invitationsTable.staffId, staffId), open(at))),
      db.insert(invitationsTable).values(row),
    ]);
    return secret;
  },

  /** Whom an open invitation is for. */
  find: async (db: Database, secret: string, at: Instant): Promise<{ id: string; staff: StaffMember } | undefined> => {
    const [row] = await db
      .select()
      .from(invitationsTable)
      .where(and(eq(invitationsTable.secretHash, await sha256(secret)), open(at)));
    const member = row && (await staff.find(db, row.staffId));
    return member && !member.leftAt ? { id: row.id, staff: member } : undefined;
  },

  /** Answers false when it was used meanwhile. */
  use: async (db: Database, id: string, at: Instant): Promise<boolean> => {
    const [row] = await db
      .update(invitationsTable)
      .set({ usedAt: at })
      .where(and(eq(invitationsTable.id, id), open(at)))
      .returning({ id: invitationsTable.id });
    return row !== undefined;
  },

  /** Until when each person's open invitation is good. */
  openUntil: async (db: Database, at: Instant): Promise<ReadonlyMap<string, Instant>> => {
    const rows = await db.select().from(invitationsTable).where(open(at));
    return new Map(rows.map(({ staffId, expiresAt }) => [staffId, expiresAt]));
  },
};
