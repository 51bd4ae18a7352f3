import { eq } from "drizzle-orm";
import { index, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { Database, Instant } from "./database.js";
import { jobNumber, jobsTable } from "./jobs.js";
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

/** All that run, with the number of the job each runs on. */
export async function timersOn(
  db: Database,
): Promise<readonly { readonly person: string; readonly jobId: string; readonly number: string }[]> {
  const { person, jobId } = timersTable;
  const { year, sequence } = jobsTable;
  const rows = await db.select({ person, jobId, year, sequence }).from(timersTable).innerJoin(jobsTable, eq(jobsTable.id, jobId));
  return rows.map((row) => ({ person: row.person, jobId: row.jobId, number: jobNumber(row) }));
}
