/** Answers to repeated requests. A row without a reply is a request still running. */
import { and, eq, isNull, lt, or } from "drizzle-orm";
import { integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { type Database, type Instant, noted } from "./database.js";
import { busyIn } from "./databaseBusy.js";

export interface StoredReply {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
}

export const repliesTable = sqliteTable(
  "idempotent_replies",
  {
    /** Method and path; keys of different resources never meet. */
    target: text("target").notNull(),
    key: text("key").notNull(),
    /** SHA-256 of the request body. */
    fingerprint: text("fingerprint").notNull(),
    startedAt: text("started_at").notNull(),
    status: integer("status"),
    headers: text("headers", { mode: "json" }).$type<Readonly<Record<string, string>>>(),
    body: text("body"),
  },
  (table) => [primaryKey({ columns: [table.target, table.key] })],
);

const HOUR = 3_600_000;
/** A reply is replayed for a day; a request that never ended (a crash) frees its key after a minute. */
export const REPLIED_FOR = 24 * HOUR;
const RUNNING_FOR = 60_000;

const same = (target: string, key: string) => and(eq(repliesTable.target, target), eq(repliesTable.key, key));

export const idempotency = {
  /** Takes the key, or tells what stands in the way. */
  begin: async (
    db: Database,
    target: string,
    key: string,
    fingerprint: string,
    now: Date,
  ): Promise<{ is: "begun" } | { is: "running" } | { is: "other body" } | { is: "done"; reply: StoredReply }> => {
    const before = (age: number): Instant => new Date(now.getTime() - age).toISOString();
    const [, begun] = await db.batch([
      db
        .delete(repliesTable)
        .where(
          or(
            lt(repliesTable.startedAt, before(REPLIED_FOR)),
            and(isNull(repliesTable.status), lt(repliesTable.startedAt, before(RUNNING_FOR))),
          ),
        ),
      db
        .insert(repliesTable)
        .values({ target, key, fingerprint, startedAt: now.toISOString() })
        .onConflictDoNothing()
        .returning({ key: repliesTable.key }),
    ]);
    if (begun.length > 0) return { is: "begun" };
    const [row] = await db.select().from(repliesTable).where(same(target, key));
    if (!row) return { is: "running" };
    if (row.fingerprint !== fingerprint) return { is: "other body" };
    if (row.status === null) return { is: "running" };
    return { is: "done", reply: { status: row.status, headers: row.headers ?? {}, body: row.body ?? "" } };
  },

  /** What was done stands and is answered, also where the answer cannot be kept. */
  finish: async (db: Database, target: string, key: string, reply: StoredReply): Promise<void> => {
    try {
      await db.update(repliesTable).set(reply).where(same(target, key));
    } catch (error) {
      if (!busyIn(error)) throw error;
    }
  },

  /** The request failed on our side: it may be tried again; after a minute where not even this can be written. */
  release: async (db: Database, target: string, key: string): Promise<void> => {
    await noted(db, db.delete(repliesTable).where(same(target, key)));
  },
};
