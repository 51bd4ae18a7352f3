/**
 * One-time links by which a person of the staff gets a way in, the first time or after losing all others. A new link ends the one before,
 * and none is good for longer than who made it may invite.
 */
import { and, eq, gt, isNull, or } from "drizzle-orm";
import { alias, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { uuidv7 } from "uuidv7";
import type { Database, Instant } from "./database.js";
import { INVITATION_DAYS } from "./entryTerms.js";
import { randomText } from "./secrets.js";
import { sha256 } from "./sha256.js";
import { member, type StaffMember, staffTable } from "./staff.js";

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

const open = (at: Instant) => and(isNull(invitationsTable.usedAt), gt(invitationsTable.expiresAt, at));

/** Those that a manager who is still there made for someone who is. */
const standing = (db: Database) => {
  const maker = alias(staffTable, "maker");
  return db
    .select({ row: invitationsTable, staff: staffTable })
    .from(invitationsTable)
    .innerJoin(staffTable, and(eq(staffTable.id, invitationsTable.staffId), isNull(staffTable.leftAt)))
    .innerJoin(maker, and(eq(maker.id, invitationsTable.madeBy), eq(maker.role, "manager"), isNull(maker.leftAt)));
};

/** The secret, told once: 192 bits; and its row. */
export async function newInvitation(staffId: string, madeBy: string, at: Instant) {
  const secret = randomText(24);
  const expiresAt = new Date(Date.parse(at) + INVITATION_DAYS * 86_400_000).toISOString();
  return { secret, row: { id: uuidv7(), secretHash: await sha256(secret), staffId, madeBy, madeAt: at, expiresAt } };
}

export const invitations = {
  /** For a batch. */
  adding: (db: Database, row: typeof invitationsTable.$inferInsert) => db.insert(invitationsTable).values(row),

  /** For a batch: what someone was sent before opens nothing any more. */
  ending: (db: Database, staffId: string, at: Instant) =>
    db
      .update(invitationsTable)
      .set({ expiresAt: at })
      .where(and(eq(invitationsTable.staffId, staffId), open(at))),

  /** For a batch: nor does what they made for others. */
  endingWith: (db: Database, staffId: string, at: Instant) =>
    db
      .update(invitationsTable)
      .set({ expiresAt: at })
      .where(and(or(eq(invitationsTable.staffId, staffId), eq(invitationsTable.madeBy, staffId)), open(at))),

  /** Whom an open invitation is for. */
  find: async (db: Database, secret: string, at: Instant): Promise<{ id: string; staff: StaffMember } | undefined> => {
    const [found] = await standing(db).where(and(eq(invitationsTable.secretHash, await sha256(secret)), open(at)));
    return found && { id: found.row.id, staff: member(found.staff) };
  },

  /** For a batch, which is refused where it was used meanwhile. */
  using: (db: Database, id: string, at: Instant) =>
    db.update(invitationsTable).set({ usedAt: at }).where(eq(invitationsTable.id, id)),

  /** Until when each person's open invitation is good. */
  openUntil: async (db: Database, at: Instant): Promise<ReadonlyMap<string, Instant>> => {
    const rows = await standing(db).where(open(at));
    return new Map(rows.map(({ row: { staffId, expiresAt } }) => [staffId, expiresAt]));
  },
};
