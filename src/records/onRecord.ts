/** Every row that an event tells of, table by table, so that none is forgotten when the trail is checked. */
import { asc, eq, getTableColumns, notInArray, sql } from "drizzle-orm";
import { agreementsTable } from "./agreements.js";
import { closeOutsTable } from "./closeOuts.js";
import type { Database } from "./database.js";
import { issuesTable } from "./issues.js";
import { jobsTable } from "./jobs.js";
import { type Telling, tellingOf } from "./keptOnce.js";
import { overridesTable } from "./overrides.js";
import { ownerLinksTable, withdrawalsTable } from "./ownerLinks.js";
import { paymentsTable, paymentWithdrawalsTable } from "./payments.js";
import { photoRemovalsTable, photosTable } from "./photos.js";
import { questionRepliesTable, questionsTable } from "./questions.js";
import { readingsTable } from "./readings.js";
import { tickOffsTable } from "./tickOffs.js";
import { eventsTable } from "./trail.js";
import { logWithdrawalsTable, workLogTable } from "./workLog.js";

export const RECORD_TABLES = {
  issues: issuesTable,
  owner_links: ownerLinksTable,
  link_withdrawals: withdrawalsTable,
  agreements: agreementsTable,
  questions: questionsTable,
  question_replies: questionRepliesTable,
  overrides: overridesTable,
  work_log: workLogTable,
  log_withdrawals: logWithdrawalsTable,
  tick_offs: tickOffsTable,
  readings: readingsTable,
  payments: paymentsTable,
  payment_withdrawals: paymentWithdrawalsTable,
  close_outs: closeOutsTable,
  photos: photosTable,
  photo_removals: photoRemovalsTable,
} as const;

type RecordTable = (typeof RECORD_TABLES)[keyof typeof RECORD_TABLES];

/** A job's rows of one table, without the bytes of a PDF. */
export async function rowsOf(db: Database, table: RecordTable, jobId: string): Promise<{ readonly id: string }[]> {
  const { pdf: _, ...columns } = getTableColumns(table) as ReturnType<typeof getTableColumns<typeof issuesTable>>;
  return db
    .select(columns)
    .from(table as typeof issuesTable)
    .where(eq(table.jobId, jobId))
    .orderBy(asc(table.id));
}

/** Each row of a job as an event would tell of it now. The PDF of an issue is told of by its own hash. */
export async function rowsOnRecord(db: Database, jobId: string): Promise<Telling[]> {
  const found: Telling[] = [];
  for (const [name, table] of Object.entries(RECORD_TABLES)) {
    for (const row of await rowsOf(db, table, jobId)) found.push(await tellingOf(name, row));
  }
  return found;
}

/** Rows of the trail whose job is not there. */
export async function countStray(db: Database): Promise<number> {
  let count = 0;
  const there = db.select({ id: jobsTable.id }).from(jobsTable);
  const ofJob = (Object.values(RECORD_TABLES) as (typeof issuesTable)[]).map((table) => [table, table.jobId] as const);
  for (const [table, job] of [...ofJob, [eventsTable, eventsTable.job] as const]) {
    const [row] = await db
      .select({ rows: sql<number>`count(*)` })
      .from(table as typeof issuesTable)
      .where(notInArray(job, there));
    count += row!.rows;
  }
  return count;
}
