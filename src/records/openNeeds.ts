/**
 * The parts of each job that is agreed to and not closed, so that an order list reads these jobs and no others. A row appears empty
 * with an answer and goes with the close-out (triggers); who reads it first fills it from what is agreed to.
 */
import { and, eq, inArray, isNotNull, isNull, sql } from "drizzle-orm";
import { index, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { CurrencyCode } from "../estimating/input.js";
import { type JobPart, jobParts, type LoggedPieces } from "../estimating/parts/jobParts.js";
import { agreedTo, answersOf } from "./agreements.js";
import { type Database, type Instant, noted } from "./database.js";
import { jobNumber, jobsTable } from "./jobs.js";
import { pricedAgreement } from "./pricedSet.js";
import { unitsTable } from "./units.js";
import { standsInLog, workLogTable } from "./workLog.js";

interface Needs {
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

export interface OpenJob extends Needs {
  readonly id: string;
  /** Such as J-2026-0001. */
  readonly number: string;
  readonly unit: string;
  readonly logged: LoggedPieces;
}

/** Who agreed first comes first. */
export async function openJobs(db: Database): Promise<OpenJob[]> {
  const unkept = await fillNeeds(db);
  const rows = await db
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
  const logged = await loggedOnEach(
    db,
    rows.map(({ id }) => id),
  );
  return rows
    .flatMap(({ id, needs: kept, maker, model, ...named }) => {
      const needs = kept ?? unkept.get(id);
      return needs
        ? [{ ...needs, id, number: jobNumber(named), unit: `${maker} ${model}`, logged: logged.get(id) ?? new Map() }]
        : [];
    })
    .sort((a, b) => compare(a.agreedAt, b.agreedAt) || compare(a.number, b.number));
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What could not be kept, since reading waits for nobody. */
async function fillNeeds(db: Database): Promise<ReadonlyMap<string, Needs>> {
  const unkept = new Map<string, Needs>();
  const { jobId, answerId, needs: kept } = openNeedsTable;
  const empty = await db.select({ job: jobId, answer: answerId }).from(openNeedsTable).where(isNull(kept));
  for (const { job, answer } of empty) {
    const agreement = agreedTo(await answersOf(db, job));
    const priced = await pricedAgreement(db, agreement);
    // Where another answer came meanwhile, who reads next fills the row.
    const own = and(eq(jobId, job), isNull(kept), sql`${answerId} is ${answer}`);
    if (!agreement || !priced) await noted(db, db.delete(openNeedsTable).where(own));
    else {
      const needs = { currency: priced.sheet.currency, agreedAt: agreement.at, parts: jobParts(priced.input, priced.sheet) };
      if (!(await noted(db, db.update(openNeedsTable).set({ needs }).where(own)))) unkept.set(job, needs);
    }
  }
  return unkept;
}

const pieces = sql<number>`sum(case when coalesce(${workLogTable.partKind}, ${workLogTable.partType}) is null then 0
  else coalesce(${workLogTable.partCount}, 1) end)`;

/** Asked by the ids themselves: joined to the open jobs, SQLite would walk the whole log in the order of its jobs. */
async function loggedOnEach(db: Database, ids: readonly string[]): Promise<ReadonlyMap<string, LoggedPieces>> {
  const logged = new Map<string, Map<string, number>>();
  if (ids.length === 0) return logged;
  const { jobId, item } = workLogTable;
  const rows = await db
    .select({ jobId, item, pieces })
    .from(workLogTable)
    .where(and(inArray(jobId, [...ids]), isNotNull(item), standsInLog))
    .groupBy(jobId, item);
  for (const row of rows) logged.set(row.jobId, (logged.get(row.jobId) ?? new Map()).set(row.item!, row.pieces));
  return logged;
}

/** Pieces used up on one job, by work item. */
export const loggedOn = async (db: Database, job: string): Promise<LoggedPieces> =>
  (await loggedOnEach(db, [job])).get(job) ?? new Map();

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
