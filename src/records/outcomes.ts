/**
 * What closed jobs came to, a row each, for boards and lists. Derived: written with the close-out, and written anew when that is
 * corrected; `closeOuts` is what is on record. Money in minor units of the job's currency, minutes to three decimals.
 */
import { and, desc, eq, gte, lte, ne, type SQL, sql } from "drizzle-orm";
import { index, integer, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { JobOutcome } from "../estimating/closeout/accuracy/board.js";
import type { CurrencyCode, IsoDate, Minor, Minutes } from "../estimating/input.js";
import { closeOutsTable } from "./closeOuts.js";
import type { Database } from "./database.js";
import { jobNumber, jobsTable } from "./jobs.js";
import { type OfJobs, ofJobs } from "./keptOnce.js";

export interface Outcome {
  readonly jobId: string;
  readonly closeOutId: string;
  readonly closedOn: IsoDate;
  /** YYYY-MM. */
  readonly month: string;
  /** Maker and model. */
  readonly model: string;
  readonly currency: CurrencyCode;
  /** Nothing was agreed to: it counts in what jobs earned, and says nothing of how near estimates are. Forecast, actual and agreed are 0. */
  readonly declined: boolean;
  /** With tax. */
  readonly quotedTotal: Minor;
  readonly agreedTotal: Minor;
  readonly billedTotal: Minor;
  /** Billed without tax. */
  readonly revenue: Minor;
  /** What it cost the shop, and what was planned to be earned; absent where costs were not said. */
  readonly cost?: Minor | null;
  readonly plannedMargin?: Minor | null;
  /** At the rate book's prices, before tax that comes on top: what half of such jobs, and four in five, come to, and what this one did. */
  readonly p50: Minor;
  readonly p80: Minor;
  readonly actual: Minor;
  /** Attended: as agreed, as allowed for what was found and done, and worked. */
  readonly agreedMinutes: Minutes;
  readonly allowedMinutes: Minutes;
  readonly actualMinutes: Minutes;
}

export const outcomesTable = sqliteTable(
  "outcomes",
  {
    jobId: text("job_id")
      .primaryKey()
      .references(() => jobsTable.id),
    closeOutId: text("close_out_id")
      .notNull()
      .references(() => closeOutsTable.id),
    closedOn: text("closed_on").notNull(),
    month: text("month").notNull(),
    model: text("model").notNull(),
    currency: text("currency").notNull(),
    declined: integer("declined", { mode: "boolean" }).notNull().default(false),
    quotedTotal: integer("quoted_total").notNull(),
    agreedTotal: integer("agreed_total").notNull(),
    billedTotal: integer("billed_total").notNull(),
    revenue: integer("revenue").notNull(),
    cost: integer("cost"),
    plannedMargin: integer("planned_margin"),
    p50: integer("p50").notNull(),
    p80: integer("p80").notNull(),
    actual: integer("actual").notNull(),
    agreedMinutes: real("agreed_minutes").notNull(),
    allowedMinutes: real("allowed_minutes").notNull(),
    actualMinutes: real("actual_minutes").notNull(),
  },
  (table) => [
    index("outcomes_closed").on(table.closedOn),
    index("outcomes_month").on(table.month),
    index("outcomes_model").on(table.model, table.closedOn),
  ],
);

export interface OutcomesWanted {
  readonly currency: CurrencyCode;
  readonly from?: IsoDate | undefined;
  readonly to?: IsoDate | undefined;
  readonly model?: string | undefined;
}

const wantedRows = ({ currency, from, to, model }: OutcomesWanted): SQL | undefined =>
  and(
    eq(outcomesTable.currency, currency),
    from === undefined ? undefined : gte(outcomesTable.closedOn, from),
    to === undefined ? undefined : lte(outcomesTable.closedOn, to),
    model === undefined ? undefined : eq(outcomesTable.model, model),
  );

type Packed = readonly [string, string, IsoDate, 0 | 1, Minor, Minor, Minor, Minor, Minor | null];

/** As `accuracyBoard` takes them: forecasts and actual in money. One text crosses from the database, since a hundred thousand rows are slow. */
export async function outcomes(db: Database, wanted: OutcomesWanted): Promise<JobOutcome[]> {
  const { jobId, model, closedOn, declined, p50, p80, actual, revenue, cost } = outcomesTable;
  const [row] = await db
    .select({
      all: sql<string>`json_group_array(json_array(${jobId}, ${model}, ${closedOn}, ${declined}, ${p50}, ${p80}, ${actual}, ${revenue}, ${cost}))`,
    })
    .from(outcomesTable)
    .where(wantedRows(wanted));
  return (JSON.parse(row!.all) as Packed[]).map(([job, unit, on, refused, half, most, took, billed, spent]) => ({
    job,
    model: unit,
    closedOn: on,
    ...(refused === 0 && { forecast: { p50: half, p80: most, actual: took } }),
    ...(spent !== null && { earned: { revenue: billed, cost: spent } }),
  }));
}

/** How many jobs were closed in a currency. */
export const closedIn = (db: Database, currency: CurrencyCode): Promise<number> =>
  db.$count(outcomesTable, eq(outcomesTable.currency, currency));

export interface NewestClosed extends Pick<Outcome, "jobId" | "model" | "closedOn" | "p50" | "p80" | "actual"> {
  /** Such as J-2026-0001. */
  readonly number: string;
}

/** Of agreed work, closed last first. */
export async function newestClosed(db: Database, wanted: OutcomesWanted, limit: number): Promise<NewestClosed[]> {
  const { jobId, model, closedOn, p50, p80, actual } = outcomesTable;
  const { year, sequence } = jobsTable;
  const rows = await db
    .select({ jobId, model, closedOn, p50, p80, actual, year, sequence })
    .from(outcomesTable)
    .innerJoin(jobsTable, eq(jobsTable.id, jobId))
    .where(and(wantedRows(wanted), eq(outcomesTable.declined, false)))
    .orderBy(desc(closedOn), desc(jobId))
    .limit(limit);
  return rows.map(({ year: of, sequence: at, ...row }) => ({ ...row, number: jobNumber({ year: of, sequence: at }) }));
}

/** The job of a model, of agreed work, that was closed last; `except`: the one that is being written. */
export async function lastOfModel(db: Database, unit: string, except = "") {
  const { jobId, model, closedOn, declined, allowedMinutes, actualMinutes } = outcomesTable;
  const { year, sequence } = jobsTable;
  const [row] = await db
    .select({ jobId, closedOn, allowedMinutes, actualMinutes, year, sequence })
    .from(outcomesTable)
    .innerJoin(jobsTable, eq(jobsTable.id, jobId))
    .where(and(eq(model, unit), eq(declined, false), ne(jobId, except)))
    .orderBy(desc(closedOn), desc(jobId))
    .limit(1);
  return row && { ...row, number: jobNumber(row) };
}

export const outcomesOf = async (db: Database, jobs: OfJobs): Promise<Outcome[]> =>
  db.select().from(outcomesTable).where(ofJobs(outcomesTable, jobs));
