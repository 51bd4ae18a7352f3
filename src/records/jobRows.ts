/** Every row of one job, and what they rest on, in one read: one moment of the database, and one round trip. PDFs and photos stay where they are. */
import { and, asc, desc, eq, getTableColumns, gt, inArray, isNull, type Placeholder, type SQL, sql } from "drizzle-orm";
import { CHAIN_START, type ChainHead } from "../estimating/agreement/chain.js";
import type { RateBook } from "../estimating/input.js";
import { type Agreement, agreementsTable } from "./agreements.js";
import { type CloseOutRecord, closeOutsTable } from "./closeOuts.js";
import type { Kept } from "./columns.js";
import { batchOnce, type Database } from "./database.js";
import { asItStands, type Estimate, estimatesTable } from "./estimates.js";
import { type Issue, issuesTable } from "./issues.js";
import { type Job, jobFrom, jobNumber, jobsTable } from "./jobs.js";
import { asWritten } from "./keptOnce.js";
import { withoutNulls } from "./noun.js";
import { type Override, overridesTable } from "./overrides.js";
import { linkFrom, type OwnerLink, ownerLinksTable, withdrawalsTable } from "./ownerLinks.js";
import { type Owner, ownersTable } from "./owners.js";
import { keptFrom, keptQuery, type PaymentKept, paymentsTable } from "./payments.js";
import { type Photo, photoRemovalsTable, photosTable } from "./photos.js";
import { type Question, questionRepliesTable, questionsTable } from "./questions.js";
import { rateBooksTable } from "./rateBooks.js";
import { type Reading, readingsTable } from "./readings.js";
import { type Settings, SHOP, settingsTable } from "./settings.js";
import { type Movement, stockMovementsTable } from "./stock.js";
import { type TickOff, tickOffsTable } from "./tickOffs.js";
import { type Timer, timersTable } from "./timers.js";
import { eventsTable, ON_THE_LOG } from "./trail.js";
import { type UnitRecord, unitsTable } from "./units.js";
import { type EntryKept, type EntryWithdrawal, type LogEntry, logWithdrawalsTable, workLogTable } from "./workLog.js";

export interface JobRows {
  readonly job: Job;
  readonly owner: Owner & Kept;
  readonly unit: UnitRecord & Kept;
  readonly settings: Settings & Kept;
  /** Oldest revision first, as everything below. */
  readonly revisions: readonly Estimate[];
  /** The versions of rate books that the revisions stand on, and what the job was closed by. */
  readonly rateBooks: readonly RateBook[];
  readonly issues: readonly Issue[];
  readonly answers: readonly Agreement[];
  readonly links: readonly OwnerLink[];
  readonly questions: readonly Question[];
  /** Every entry ever made, the withdrawn ones too. */
  readonly everyEntry: readonly EntryKept[];
  readonly overrides: readonly Override[];
  /** Of the whole shop, since a person has one, on whichever job. */
  readonly everyTimer: readonly (Timer & { readonly jobNumber: string })[];
  readonly tickOffs: readonly TickOff[];
  readonly readings: readonly Reading[];
  /** Every one ever recorded, the withdrawn ones too. */
  readonly payments: readonly PaymentKept[];
  /** Those that were not taken out. */
  readonly photos: readonly Photo[];
  readonly closeOuts: readonly CloseOutRecord[];
  /** Of parts that the job took from the shelf, and put back. */
  readonly movements: readonly Movement[];
  /** Of its trail: what is written goes after it. */
  readonly head: ChainHead;
  /** Whether the log is another than the one that stands in the newest close-out, so that it waits for a correction. */
  readonly changedAfterClosing: boolean;
}

const { pdf: _issued, ...issueColumns } = getTableColumns(issuesTable);
const { pdf: _account, ...closeOutColumns } = getTableColumns(closeOutsTable);

const queriesOf = (db: Database, id: SQL | Placeholder) => {
  const of = (column: typeof jobsTable.ownerId | typeof jobsTable.unitId) =>
    sql`(select ${column} from ${jobsTable} where ${jobsTable.id} = ${id})`;
  const lastClosing = sql`(select max(${closeOutsTable.headNumber}) from ${closeOutsTable} where ${closeOutsTable.jobId} = ${id})`;
  const asked = db.select({ id: questionsTable.id }).from(questionsTable).where(eq(questionsTable.jobId, id));
  const { rateBookId, rateBookVersion } = estimatesTable;
  return [
    db.select().from(jobsTable).where(eq(jobsTable.id, id)),
    db
      .select()
      .from(ownersTable)
      .where(eq(ownersTable.id, of(jobsTable.ownerId))),
    db
      .select()
      .from(unitsTable)
      .where(eq(unitsTable.id, of(jobsTable.unitId))),
    db.select().from(settingsTable).where(eq(settingsTable.id, SHOP)),
    db.select().from(estimatesTable).where(eq(estimatesTable.jobId, id)).orderBy(asc(estimatesTable.revision)),
    db
      .select({ book: rateBooksTable.book })
      .from(rateBooksTable)
      .where(
        sql`(${rateBooksTable.id}, ${rateBooksTable.version}) in (
          select ${rateBookId}, ${rateBookVersion} from ${estimatesTable} where ${estimatesTable.jobId} = ${id}
          union select ${closeOutsTable.basis} ->> '$.current.rateBookId', ${closeOutsTable.basis} ->> '$.current.rateBookVersion'
          from ${closeOutsTable} where ${closeOutsTable.jobId} = ${id})`,
      ),
    db.select(issueColumns).from(issuesTable).where(eq(issuesTable.jobId, id)).orderBy(asc(issuesTable.revision)),
    db.select().from(agreementsTable).where(eq(agreementsTable.jobId, id)).orderBy(asWritten(agreementsTable)),
    db
      .select({ row: ownerLinksTable, withdrawal: withdrawalsTable })
      .from(ownerLinksTable)
      .leftJoin(withdrawalsTable, eq(withdrawalsTable.linkId, ownerLinksTable.id))
      .where(eq(ownerLinksTable.jobId, id))
      .orderBy(asWritten(ownerLinksTable)),
    db.select().from(questionsTable).where(eq(questionsTable.jobId, id)).orderBy(asWritten(questionsTable)),
    db
      .select()
      .from(questionRepliesTable)
      .where(inArray(questionRepliesTable.questionId, asked))
      .orderBy(asWritten(questionRepliesTable)),
    db
      .select({ entry: workLogTable, withdrawal: logWithdrawalsTable })
      .from(workLogTable)
      .leftJoin(logWithdrawalsTable, eq(logWithdrawalsTable.entryId, workLogTable.id))
      .where(eq(workLogTable.jobId, id))
      .orderBy(asWritten(workLogTable)),
    db.select().from(overridesTable).where(eq(overridesTable.jobId, id)).orderBy(asWritten(overridesTable)),
    db
      .select({ timer: timersTable, year: jobsTable.year, sequence: jobsTable.sequence })
      .from(timersTable)
      .innerJoin(jobsTable, eq(jobsTable.id, timersTable.jobId))
      .orderBy(asc(timersTable.startedAt)),
    db.select().from(tickOffsTable).where(eq(tickOffsTable.jobId, id)).orderBy(asWritten(tickOffsTable)),
    db.select().from(readingsTable).where(eq(readingsTable.jobId, id)).orderBy(asWritten(readingsTable)),
    keptQuery(db, eq(paymentsTable.jobId, id)),
    db
      .select({ photo: photosTable })
      .from(photosTable)
      .leftJoin(photoRemovalsTable, eq(photoRemovalsTable.photoId, photosTable.id))
      .where(and(eq(photosTable.jobId, id), isNull(photoRemovalsTable.id)))
      .orderBy(asWritten(photosTable)),
    db.select(closeOutColumns).from(closeOutsTable).where(eq(closeOutsTable.jobId, id)).orderBy(asc(closeOutsTable.headNumber)),
    db.select().from(stockMovementsTable).where(eq(stockMovementsTable.jobId, id)).orderBy(asc(stockMovementsTable.number)),
    db
      .select({ number: eventsTable.number, hash: eventsTable.hash })
      .from(eventsTable)
      .where(eq(eventsTable.job, id))
      .orderBy(desc(eventsTable.number))
      .limit(1),
    db
      .select({ number: eventsTable.number })
      .from(eventsTable)
      .where(and(eq(eventsTable.job, id), gt(eventsTable.number, lastClosing), inArray(eventsTable.is, [...ON_THE_LOG])))
      .limit(1),
  ] as const;
};

const given = sql.placeholder("id");
const ofJob = batchOnce((db) => queriesOf(db, given));
const ofEstimate = batchOnce((db) =>
  queriesOf(db, sql`(select ${estimatesTable.jobId} from ${estimatesTable} where ${estimatesTable.id} = ${given})`),
);

/** A job by its own id, or by that of one of its estimates. */
export type JobNamed = string | { readonly estimate: string };

/** Undefined where there is no such job. */
export async function jobRows(db: Database, named: JobNamed): Promise<JobRows | undefined> {
  const [
    [jobRow],
    [owner],
    [unit],
    [settings],
    revisions,
    books,
    issues,
    answers,
    links,
    questions,
    replies,
    entries,
    overrides,
    timers,
    tickOffs,
    readings,
    payments,
    photos,
    closeOuts,
    movements,
    [head],
    later,
  ] = await (typeof named === "string" ? ofJob(db, { id: named }) : ofEstimate(db, { id: named.estimate }));
  if (!jobRow) return undefined;
  if (!owner || !unit) throw new Error(`Job ${jobRow.id} has no owner, or no unit.`);
  if (!settings) throw new Error("The database holds no shop settings; run the set-up (npm start or npm run migrate).");
  const bookOf = ({ rateBookId, rateBookVersion }: typeof estimatesTable.$inferSelect): RateBook => {
    const found = books.find(({ book }) => book.id === rateBookId && book.version === rateBookVersion);
    if (!found) throw new Error(`Rate book ${rateBookId} version ${rateBookVersion} is gone.`);
    return found.book;
  };
  return {
    job: jobFrom(jobRow),
    owner: withoutNulls(owner),
    unit: withoutNulls(unit),
    settings: withoutNulls(settings),
    revisions: await Promise.all(
      revisions.map((estimate) => asItStands({ estimate, unit, job: jobRow }, async () => bookOf(estimate))),
    ),
    rateBooks: books.map(({ book }) => book),
    issues,
    answers: answers.map((row) => withoutNulls<Agreement>(row)),
    links: links.map(({ row, withdrawal }) => linkFrom(row, withdrawal)),
    questions: questions.map((row) => ({ ...row, replies: replies.filter(({ questionId }) => questionId === row.id) })),
    everyEntry: entries.map(({ entry, withdrawal }) => ({
      ...withoutNulls<LogEntry>(entry),
      ...(withdrawal && { withdrawal: withoutNulls<EntryWithdrawal>(withdrawal) }),
    })),
    overrides: overrides.map((row) => withoutNulls<Override>(row)),
    everyTimer: timers.map(({ timer, ...named }) => ({ ...withoutNulls<Timer>(timer), jobNumber: jobNumber(named) })),
    tickOffs,
    readings: readings.map((row) => withoutNulls<Reading>(row)),
    payments: payments.map(keptFrom),
    photos: photos.map(({ photo }) => withoutNulls<Photo>(photo)),
    closeOuts: closeOuts.map((row) => withoutNulls<CloseOutRecord>(row)),
    movements: movements.map((row) => withoutNulls<Movement>(row)),
    head: head ?? { number: 0, hash: CHAIN_START },
    changedAfterClosing: later.length > 0,
  };
}
