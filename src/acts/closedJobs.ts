/** Closed jobs as learning and what-if take them: the allowed input again, the log, and what they came to. */
import type { PastJob } from "../estimating/closeout/accuracy/whatIf.js";
import { agreedOf, allowedFor } from "../estimating/closeout/jobDone.js";
import { type ClosedJob, observationsOf } from "../estimating/closeout/learning/observation.js";
import type { RateBook } from "../estimating/input.js";
import { type CloseOutRecord, closeOuts } from "../records/closeOuts.js";
import type { Database } from "../records/database.js";
import { notObserved, observing } from "../records/observations.js";
import { jobAsItStands } from "./job.js";
import { jobDone } from "./reckoning.js";

export interface ClosedPast extends ClosedJob, PastJob {
  readonly record: CloseOutRecord;
  /** By which it was priced. */
  readonly rateBook: Pick<RateBook, "id" | "version">;
}

/** Closed last first, `before` a close-out's id for those before it. Each is priced again, so ask for tens, not thousands, on a page. */
export async function closedJobs(db: Database, limit: number, before?: string): Promise<ClosedPast[]> {
  const found: ClosedPast[] = [];
  for (const record of await closeOuts.newest(db, limit, before)) found.push(await closedPast(db, record));
  return found;
}

async function closedPast(db: Database, record: CloseOutRecord): Promise<ClosedPast> {
  const job = jobDone((await jobAsItStands(db, record.jobId))!, record.basis);
  const allowed = allowedFor(job);
  if (!allowed.ok) throw new Error(`Close-out ${record.id} has no allowed work.`);
  const { input } = allowed.allowed;
  const { closeOut } = record.result;
  if (!closeOut) throw new Error(`Close-out ${record.id} is of a declined job.`);
  const { id, version } = agreedOf(job).input.rateBook;
  return {
    job: record.jobId,
    input,
    log: job.log,
    actual: closeOut.total.actual,
    record,
    rateBook: { id, version },
  };
}

/** For `whatIf`. */
export const pastJobs = async (db: Database, limit: number, before?: string): Promise<PastJob[]> =>
  (await closedJobs(db, limit, before)).map(({ job, input, actual }) => ({
    job,
    input,
    ...(actual !== undefined && { actual }),
  }));

/** Before `observations` is asked for a book that these jobs were not priced by. Answers how many were observed anew. */
export async function observe(db: Database, book: RateBook, records: readonly CloseOutRecord[]): Promise<number> {
  const lacking = new Set(
    await notObserved(
      db,
      book,
      records.map(({ jobId }) => jobId),
    ),
  );
  for (const record of records.filter(({ jobId }) => lacking.has(jobId))) {
    const seen = observationsOf(await closedPast(db, record), book) ?? [];
    const [first, ...rest] = observing(db, record.jobId, record.closedOn, book, seen);
    await db.batch([first!, ...rest]);
  }
  return lacking.size;
}
