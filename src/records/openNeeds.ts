/**
 * The parts of each job that is agreed to and not closed, so that an order list reads these jobs and no others. A row appears empty
 * with an answer and goes with the close-out (triggers); who reads it first fills it from what is agreed to.
 */
import { type AnyColumn, and, eq, inArray, isNotNull, isNull, sql } from "drizzle-orm";
import { index, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { CurrencyCode } from "../estimating/input.js";
import type { JobPart, LoggedPieces } from "../estimating/parts/jobParts.js";
import { type Database, type Instant, noted } from "./database.js";
import { jobNumber, jobsTable } from "./jobs.js";
import { unitsTable } from "./units.js";
import { standsInLog, workLogTable } from "./workLog.js";

export interface Needs {
  readonly currency: CurrencyCode;
  readonly agreedAt: Instant;
  readonly parts: readonly JobPart[];
}

export const openNeedsTable = sqliteTable(
  "open_needs",
  {
    jobId: text("job_id")
      .primaryKey()
      .references(() => jobsTable.id),
    /** The owner's last answer. */
    answerId: text("answer_id"),
    /** Null until read the first time after an answer. */
    needs: text("needs", { mode: "json" }).$type<Needs>(),
  },
  (table) => [index("open_needs_empty").on(table.jobId).where(sql`needs is null`)],
);

/** Rows that nobody filled since the last answer. */
export const emptyNeeds = (db: Database) =>
  db
    .select({ job: openNeedsTable.jobId, answer: openNeedsTable.answerId })
    .from(openNeedsTable)
    .where(isNull(openNeedsTable.needs));

/** Where another answer came meanwhile, who reads next fills the row. False: it could not be kept, since reading waits for nobody. */
export function keepNeeds(
  db: Database,
  { job, answer }: { readonly job: string; readonly answer: string | null },
  needs: Needs | undefined,
): Promise<boolean> {
  const { jobId, answerId, needs: kept } = openNeedsTable;
  const own = and(eq(jobId, job), isNull(kept), sql`${answerId} is ${answer}`);
  return noted(db, needs ? db.update(openNeedsTable).set({ needs }).where(own) : db.delete(openNeedsTable).where(own));
}

export const openNeedRows = (db: Database) =>
  db
    .select({
      id: openNeedsTable.jobId,
      needs: openNeedsTable.needs,
      year: jobsTable.year,
      sequence: jobsTable.sequence,
      maker: unitsTable.maker,
      model: unitsTable.model,
    })
    .from(openNeedsTable)
    // Cross joins are carried out in this order: by its own count of rows SQLite would begin with all jobs.
    .crossJoin(jobsTable)
    .crossJoin(unitsTable)
    .where(and(eq(jobsTable.id, openNeedsTable.jobId), eq(unitsTable.id, jobsTable.unitId)));

const pieces = sql<number>`sum(case when coalesce(${workLogTable.partKind}, ${workLogTable.partType}, ${workLogTable.ownPart}) is null then 0
  else coalesce(${workLogTable.partCount}, 1) end)`;

/** Pieces used up on each of these jobs, by work item. A cross join is carried out in this order: by its own count SQLite would walk the whole log. */
export const loggedOnOpen = (db: Database) => {
  const { jobId, item } = workLogTable;
  return db
    .select({ jobId, item, pieces })
    .from(openNeedsTable)
    .crossJoin(workLogTable)
    .where(and(eq(jobId, openNeedsTable.jobId), isNotNull(item), standsInLog))
    .groupBy(jobId, item);
};

export function loggedOnEach(rows: Awaited<ReturnType<typeof loggedOnOpen>>): ReadonlyMap<string, LoggedPieces> {
  const logged = new Map<string, Map<string, number>>();
  for (const row of rows) logged.set(row.jobId, (logged.get(row.jobId) ?? new Map()).set(row.item!, row.pieces));
  return logged;
}

/** The kinds that they want, as a condition on a column of ids. */
export const wantedByOpen = (kind: AnyColumn) =>
  sql`${kind} in (select p.value ->> '$.part.kind' from ${openNeedsTable}, json_each(${openNeedsTable.needs}, '$.parts') p)`;

/** What to call jobs by, for lines that serve them. */
export async function jobNumbers(db: Database, ids: readonly string[]): Promise<ReadonlyMap<string, string>> {
  if (ids.length === 0) return new Map();
  const { id, year, sequence } = jobsTable;
  const rows = await db
    .select({ id, year, sequence })
    .from(jobsTable)
    .where(inArray(id, [...new Set(ids)]));
  return new Map(rows.map((row) => [row.id, jobNumber(row)]));
}
