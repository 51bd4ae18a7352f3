/** Where the shop's own program takes messages to owners from, and how the last calls to it went. One row; without an address nothing is sent. */
import { desc } from "drizzle-orm";
import { integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { type Kept, keptColumns } from "./columns.js";
import type { Database, Instant } from "./database.js";
import { jobsTable } from "./jobs.js";
import { noun, withoutNulls } from "./noun.js";
import type { Write } from "./trail.js";

export interface SendHook {
  /** Absent: switched off. */
  readonly url?: string;
  /** whsec_ and base64, as Standard Webhooks writes it. */
  readonly secret: string;
}

export const sendHooksTable = sqliteTable("send_hooks", {
  ...keptColumns(),
  url: text("url"),
  secret: text("secret").notNull(),
});

const rows = noun<SendHook>(sendHooksTable);
const ONLY = "hook";

export const sendHook = {
  id: ONLY,
  find: (db: Database): Promise<(SendHook & Kept) | undefined> => rows.find(db, ONLY),
  made: (db: Database, hook: SendHook, at: Instant) => rows.made(db, ONLY, hook, at),
  changed: rows.changed,
};

/** No address, no text: neither is needed to see why a call failed. */
export interface SendAttempt {
  readonly id: string;
  readonly at: Instant;
  readonly jobId?: string;
  /** HTTP status of the answer, where there was one. */
  readonly status?: number;
  readonly failure?: string;
}

export const sendAttemptsTable = sqliteTable("send_attempts", {
  id: text("id").primaryKey(),
  at: text("at").notNull(),
  jobId: text("job_id").references(() => jobsTable.id),
  status: integer("status"),
  failure: text("failure"),
});

export const sendAttempts = {
  adding: (db: Database, attempt: SendAttempt): Write => db.insert(sendAttemptsTable).values(attempt),
  /** Newest first. Ids are ordered by time. */
  last: async (db: Database, count: number): Promise<SendAttempt[]> => {
    const found = await db.select().from(sendAttemptsTable).orderBy(desc(sendAttemptsTable.id)).limit(count);
    return found.map((row) => withoutNulls<SendAttempt>(row));
  },
};
