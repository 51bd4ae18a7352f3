/**
 * What closed jobs say about a rate book's standards, a row for each standard behind each piece of work. Derived: written with the
 * close-out by the book the job was priced by, by another book when it is first asked for, and anew when the close-out is corrected.
 */
import { and, asc, eq, gte, inArray, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import { index, integer, primaryKey, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Observation } from "../estimating/closeout/learning/observation.js";
import { standardId, standardNamed } from "../estimating/closeout/learning/standard.js";
import type { IsoDate, RateBook } from "../estimating/input.js";
import type { Database } from "./database.js";
import { jobsTable } from "./jobs.js";

const jobId = () =>
  text("job_id")
    .notNull()
    .references(() => jobsTable.id);

export const observationsTable = sqliteTable(
  "observations",
  {
    jobId: jobId(),
    rateBookId: text("rate_book_id").notNull(),
    rateBookVersion: integer("rate_book_version").notNull(),
    /** Id of the sheet's line. */
    line: text("line").notNull(),
    standard: text("standard").notNull(),
    closedOn: text("closed_on").notNull(),
    model: text("model").notNull(),
    grade: text("grade").notNull(),
    /** Taken by the piece of work, and by the book for all of it. */
    minutes: real("minutes").notNull(),
    low: real("low").notNull(),
    likely: real("likely").notNull(),
    high: real("high").notNull(),
    /** By the book for this standard's part of it. */
    ownLow: real("own_low").notNull(),
    ownLikely: real("own_likely").notNull(),
    ownHigh: real("own_high").notNull(),
    ratePerHour: integer("rate_per_hour").notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.jobId, table.rateBookId, table.rateBookVersion, table.line, table.standard] }),
    index("observations_standard").on(table.standard, table.closedOn),
    index("observations_book").on(table.rateBookId, table.rateBookVersion, table.closedOn),
  ],
);

/** Which jobs were observed by which book, whether or not they had anything to say. */
export const observedTable = sqliteTable(
  "observed",
  {
    jobId: jobId(),
    rateBookId: text("rate_book_id").notNull(),
    rateBookVersion: integer("rate_book_version").notNull(),
  },
  (table) => [primaryKey({ columns: [table.jobId, table.rateBookId, table.rateBookVersion] })],
);

export type Book = Pick<RateBook, "id" | "version">;

/** A statement takes so many rows: sixteen columns each, far below what SQLite binds. */
const ROWS = 500;

/** To go in one batch; each piece of work of one job. */
export function observing(
  db: Database,
  job: string,
  closedOn: IsoDate,
  { id: rateBookId, version: rateBookVersion }: Book,
  seen: readonly Observation[],
): BatchItem<"sqlite">[] {
  const rows = seen.flatMap(({ model, grade, line, minutes, standard: { low, likely, high }, rests, ratePerHour }) =>
    rests.map(({ standard, time }) => ({
      ...{ jobId: job, rateBookId, rateBookVersion, line, standard: standardId(standard), closedOn, model, grade },
      ...{ minutes, low, likely, high, ownLow: time.low, ownLikely: time.likely, ownHigh: time.high, ratePerHour },
    })),
  );
  const lots = Array.from({ length: Math.ceil(rows.length / ROWS) }, (_, at) => rows.slice(at * ROWS, (at + 1) * ROWS));
  return [
    db.insert(observedTable).values({ jobId: job, rateBookId, rateBookVersion }).onConflictDoNothing(),
    ...lots.map((lot) => db.insert(observationsTable).values(lot).onConflictDoNothing()),
  ];
}

/** Before a corrected close-out is observed. */
export const unobserving = (db: Database, job: string): BatchItem<"sqlite">[] => [
  db.delete(observationsTable).where(eq(observationsTable.jobId, job)),
  db.delete(observedTable).where(eq(observedTable.jobId, job)),
];

export interface ObservationsWanted {
  readonly from?: IsoDate | undefined;
  /** Ids; all when absent. */
  readonly jobs?: readonly string[] | undefined;
  readonly model?: string | undefined;
}

/** By the very version of the book; in the order jobs were closed. `notObserved` names the jobs that lack it. */
export async function observations(db: Database, book: RateBook, wanted: ObservationsWanted = {}): Promise<Observation[]> {
  const { from, jobs, model } = wanted;
  const rows = await db
    .select()
    .from(observationsTable)
    .where(
      and(
        eq(observationsTable.rateBookId, book.id),
        eq(observationsTable.rateBookVersion, book.version),
        from === undefined ? undefined : gte(observationsTable.closedOn, from),
        model === undefined ? undefined : eq(observationsTable.model, model),
        jobs === undefined ? undefined : inArray(observationsTable.jobId, [...jobs]),
      ),
    )
    .orderBy(asc(observationsTable.closedOn), sql`rowid`);
  const found = new Map<string, Observation & { rests: Observation["rests"][number][] }>();
  for (const { jobId: job, line, grade, model: of, minutes, low, likely, high, ratePerHour, ...row } of rows) {
    const key = `${job} ${line}`;
    const piece = found.get(key) ?? {
      job,
      model: of,
      grade,
      line,
      minutes,
      standard: { low, likely, high },
      rests: [],
      ratePerHour,
    };
    found.set(key, piece);
    const time = { low: row.ownLow, likely: row.ownLikely, high: row.ownHigh };
    piece.rests.push({ standard: standardNamed(row.standard, book), time });
  }
  return [...found.values()];
}

/** Those of the jobs that this version of the book has not observed yet. */
export async function notObserved(db: Database, { id, version }: Book, jobs: readonly string[]): Promise<string[]> {
  if (jobs.length === 0) return [];
  const rows = await db
    .select({ job: observedTable.jobId })
    .from(observedTable)
    .where(
      and(eq(observedTable.rateBookId, id), eq(observedTable.rateBookVersion, version), inArray(observedTable.jobId, [...jobs])),
    );
  const known = new Set(rows.map(({ job }) => job));
  return jobs.filter((job) => !known.has(job));
}
