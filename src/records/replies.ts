/** Replies to requests that carried an Idempotency-Key, kept for a day. A row is written in the transaction of what it replies to. */
import { and, eq, gte, lt } from "drizzle-orm";
import { integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database } from "./database.js";
import type { Write } from "./trail.js";

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
    /** SHA-256 of what was sent. */
    fingerprint: text("fingerprint").notNull(),
    startedAt: text("started_at").notNull(),
    status: integer("status"),
    headers: text("headers", { mode: "json" }).$type<Readonly<Record<string, string>>>(),
    body: text("body"),
  },
  (table) => [primaryKey({ columns: [table.target, table.key] })],
);

/** A reply is given again for a day. */
const REPLIED_FOR = 24 * 3_600_000;

/** Which request it was. */
export interface Once {
  /** Whose key, method and path: keys of different people or resources never meet. */
  readonly target: string;
  readonly key: string;
  /** SHA-256 of what was sent. */
  readonly fingerprint: string;
}

const oldest = (now: Date): string => new Date(now.getTime() - REPLIED_FOR).toISOString();

/** What it was answered with before; `other body`: the key was used for something else. */
export async function findReply(
  db: Database,
  { target, key, fingerprint }: Once,
  now: Date,
): Promise<{ readonly is: "done"; readonly reply: StoredReply } | { readonly is: "other body" } | undefined> {
  const [row] = await db
    .select()
    .from(repliesTable)
    .where(and(eq(repliesTable.target, target), eq(repliesTable.key, key), gte(repliesTable.startedAt, oldest(now))));
  if (!row) return undefined;
  if (row.fingerprint !== fingerprint) return { is: "other body" };
  return { is: "done", reply: { status: row.status ?? 200, headers: row.headers ?? {}, body: row.body ?? "" } };
}

/** What is older goes first, so that a key is free again after a day. */
export const keepReply = (db: Database, once: Once, reply: StoredReply, now: Date): readonly Write[] => [
  db.delete(repliesTable).where(lt(repliesTable.startedAt, oldest(now))),
  db.insert(repliesTable).values({ ...once, ...reply, startedAt: now.toISOString() }),
];
