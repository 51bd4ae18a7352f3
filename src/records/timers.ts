/** Timers that run: one per person. Stopping one takes it away and puts its time into the work log (`stopTimer.ts`). */
import { asc, eq } from "drizzle-orm";
import { index, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { Database, Instant } from "./database.js";
import { jobsTable } from "./jobs.js";
import { withoutNulls } from "./noun.js";
import type { WorkedOn } from "./workLog.js";

export interface TimerValue extends WorkedOn {
  readonly person: string;
  readonly labourClass?: string;
}

export interface Timer extends TimerValue {
  readonly id: string;
  readonly jobId: string;
  readonly startedAt: Instant;
}

export const timersTable = sqliteTable(
  "timers",
  {
    id: text("id").primaryKey(),
    jobId: text("job_id")
      .notNull()
      .references(() => jobsTable.id),
    person: text("person").notNull(),
    startedAt: text("started_at").notNull(),
    item: text("item"),
    assembly: text("assembly"),
    offer: text("offer"),
    labourClass: text("labour_class"),
  },
  (table) => [uniqueIndex("timers_person").on(table.person), index("timers_job").on(table.jobId)],
);

/** Oldest first. */
export async function timersOf(db: Database, jobId: string): Promise<Timer[]> {
  const rows = await db.select().from(timersTable).where(eq(timersTable.jobId, jobId)).orderBy(asc(timersTable.startedAt));
  return rows.map((row) => withoutNulls<Timer>(row));
}

/** The one timer of a person, on whichever job. */
export async function timerBy(db: Database, person: string): Promise<Timer | undefined> {
  const [row] = await db.select().from(timersTable).where(eq(timersTable.person, person)).limit(1);
  return row && withoutNulls<Timer>(row);
}

export async function timer(db: Database, id: string): Promise<Timer | undefined> {
  const [row] = await db.select().from(timersTable).where(eq(timersTable.id, id)).limit(1);
  return row && withoutNulls<Timer>(row);
}
