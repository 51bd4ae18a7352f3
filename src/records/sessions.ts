/** Who is signed in where. A cookie holds the token; only its SHA-256 is kept. A session ends some days after it was last used, or began. */
import { and, desc, eq, gt, isNull, lte, ne } from "drizzle-orm";
import { index, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { uuidv7 } from "uuidv7";
import { type Database, type Instant, noted } from "./database.js";
import { SESSION_DAYS, SESSION_LONGEST_DAYS } from "./entryTerms.js";
import { withoutNulls } from "./noun.js";
import { randomText } from "./secrets.js";
import { sha256 } from "./sha256.js";
import { type Role, staffTable } from "./staff.js";

export const WAYS_IN = ["passkey", "passphrase", "recovery code", "set-up", "invitation", "shop's secret"] as const;
export type WayIn = (typeof WAYS_IN)[number];

export const sessionsTable = sqliteTable(
  "sessions",
  {
    id: text("id").primaryKey(),
    tokenHash: text("token_hash").notNull().unique(),
    staffId: text("staff_id")
      .notNull()
      .references(() => staffTable.id),
    how: text("how").$type<WayIn>().notNull(),
    /** What the browser called itself. */
    agent: text("agent"),
    begunAt: text("begun_at").notNull(),
    seenAt: text("seen_at").notNull(),
    expiresAt: text("expires_at").notNull(),
    endedAt: text("ended_at"),
  },
  (table) => [index("sessions_staff").on(table.staffId)],
);

const DAY = 24 * 3600;
export const SESSION_SECONDS = SESSION_DAYS * DAY;
const LONGEST = SESSION_LONGEST_DAYS * DAY;
/** How often a session that is used is written. */
const SEEN_EVERY = 10 * 60;

export interface Session {
  readonly id: string;
  readonly staffId: string;
  readonly how: WayIn;
  readonly agent?: string;
  readonly begunAt: Instant;
  readonly seenAt: Instant;
  readonly expiresAt: Instant;
}

export interface LiveSession {
  readonly session: Session;
  readonly staff: { readonly id: string; readonly name: string; readonly role: Role };
}

const later = (at: Instant, seconds: number): Instant => new Date(Date.parse(at) + seconds * 1000).toISOString();

export interface SessionWanted {
  readonly staffId: string;
  readonly how: WayIn;
  readonly agent: string | undefined;
}

/** A row to be written, and its token: 256 bits, told once. */
export async function newSession({ staffId, how, agent }: SessionWanted, at: Instant) {
  const token = randomText(32);
  const times = { begunAt: at, seenAt: at, expiresAt: later(at, SESSION_SECONDS) };
  const row = { id: uuidv7(), tokenHash: await sha256(token), staffId, how, agent: agent?.slice(0, 200) ?? null, ...times };
  return { row, token };
}

/** One that would last longer was begun by a clock that was ahead; a day or two of that is forgiven. */
const live = (at: Instant) =>
  and(
    ...[isNull(sessionsTable.endedAt), isNull(staffTable.leftAt), gt(sessionsTable.expiresAt, at)],
    lte(sessionsTable.expiresAt, later(at, SESSION_SECONDS + 2 * DAY)),
  );
const session = ({ tokenHash: _, endedAt: __, ...row }: typeof sessionsTable.$inferSelect) => withoutNulls<Session>(row);

export const sessions = {
  /** For a batch. */
  adding: (db: Database, row: Awaited<ReturnType<typeof newSession>>["row"]) => db.insert(sessionsTable).values(row),

  /** Nothing for a session that ended, expired, or belongs to someone who has left. */
  byToken: async (db: Database, token: string, at: Instant): Promise<LiveSession | undefined> => {
    const [found] = await db
      .select({ row: sessionsTable, id: staffTable.id, name: staffTable.name, role: staffTable.role })
      .from(sessionsTable)
      .innerJoin(staffTable, eq(staffTable.id, sessionsTable.staffId))
      .where(and(eq(sessionsTable.tokenHash, await sha256(token)), live(at)));
    return found && { session: session(found.row), staff: { id: found.id, name: found.name, role: found.role } };
  },

  /** Moves the end of a session in use; answers whether it did. */
  roll: async (db: Database, { id, seenAt, begunAt, expiresAt }: Session, at: Instant): Promise<boolean> => {
    const end = [later(at, SESSION_SECONDS), later(begunAt, LONGEST)].sort()[0]!;
    if (at < later(seenAt, SEEN_EVERY) || end < expiresAt) return false;
    return noted(db, db.update(sessionsTable).set({ seenAt: at, expiresAt: end }).where(eq(sessionsTable.id, id)));
  },

  /** Live ones, last used first. */
  of: async (db: Database, staffId: string, at: Instant): Promise<Session[]> => {
    const rows = await db
      .select({ row: sessionsTable })
      .from(sessionsTable)
      .innerJoin(staffTable, eq(staffTable.id, sessionsTable.staffId))
      .where(and(eq(sessionsTable.staffId, staffId), live(at)))
      .orderBy(desc(sessionsTable.seenAt));
    return rows.map(({ row }) => session(row));
  },

  end: (db: Database, staffId: string, id: string, at: Instant) =>
    db
      .update(sessionsTable)
      .set({ endedAt: at })
      .where(and(eq(sessionsTable.staffId, staffId), eq(sessionsTable.id, id), isNull(sessionsTable.endedAt))),

  /** All of someone's but one. */
  endOthers: (db: Database, staffId: string, but: string | undefined, at: Instant) =>
    db
      .update(sessionsTable)
      .set({ endedAt: at })
      .where(and(eq(sessionsTable.staffId, staffId), ne(sessionsTable.id, but ?? ""), isNull(sessionsTable.endedAt))),
};
