/** Nobody works on two jobs at once: time of the same person on another job. The log of one job cannot see it. */
import { and, eq, gt, gte, lt, ne } from "drizzle-orm";
import { readBook } from "../estimating/book.js";
import { wordingFor } from "../estimating/closeout/log/checkEntry.js";
import { classWorked, milliOf } from "../estimating/closeout/log/spent.js";
import type { EstimateInput } from "../estimating/input.js";
import { fromMilli } from "../estimating/money/scales.js";
import type { LogProblem } from "../estimating/problems.js";
import { workOf } from "./asWork.js";
import type { Database } from "./database.js";
import { jobs } from "./jobs.js";
import { standingOf } from "./standing.js";
import { timerBy } from "./timers.js";
import { type LogEntryValue, standsInLog, type WorkedOn, workLogTable } from "./workLog.js";

type Timed = WorkedOn & Pick<LogEntryValue, "person" | "labourClass" | "startedAt" | "endedAt">;

/** Moments in UTC; `entry` without an end is a timer about to run. */
export async function elsewhere(db: Database, jobId: string, entry: Timed, input: EstimateInput): Promise<LogProblem[]> {
  const { person, startedAt, endedAt } = entry;
  if (startedAt === undefined) return [];
  const where = `${person}, ${wordingFor(input).work(workOf(entry))}`;
  const at = { where, pointer: "/startedAt" };
  const running = await timerBy(db, person);
  if (running && running.jobId !== jobId) {
    const other = await named(db, running.jobId, running);
    if (endedAt === undefined) return [{ ...at, name: "two timers", other }];
    if (endedAt > running.startedAt && isAttended(entry, input))
      return [{ ...at, name: "times overlap", other, minutes: between(later(startedAt, running.startedAt), endedAt) }];
  }
  if (endedAt === undefined || !isAttended(entry, input)) return [];
  for (const row of await overlapping(db, jobId, person, startedAt, endedAt)) {
    const { input: theirs } = (await standingOf(db, row.jobId)) ?? {};
    if (theirs && !isAttended(asTimed(row), theirs)) continue;
    const minutes = between(later(startedAt, row.startedAt!), earlier(endedAt, row.endedAt!));
    return [{ ...at, name: "times overlap", other: await named(db, row.jobId, asTimed(row)), minutes }];
  }
  return [];
}

/** Nobody works longer than a day on end, so what began earlier has ended. */
const overlapping = (db: Database, jobId: string, person: string, from: string, to: string) =>
  db
    .select()
    .from(workLogTable)
    .where(
      and(
        eq(workLogTable.person, person),
        gte(workLogTable.startedAt, new Date(Date.parse(from) - 24 * 3_600_000).toISOString()),
        lt(workLogTable.startedAt, to),
        gt(workLogTable.endedAt, from),
        ne(workLogTable.jobId, jobId),
        standsInLog,
      ),
    );

type Row = typeof workLogTable.$inferSelect;
const asTimed = ({ person, item, assembly, offer, labourClass }: Row): Timed => ({
  person,
  ...(item !== null && { item }),
  ...(assembly !== null && { assembly }),
  ...(offer !== null && { offer }),
  ...(labourClass !== null && { labourClass }),
});

const isAttended = (entry: Timed, input: EstimateInput): boolean =>
  classWorked(
    { work: workOf(entry), ...(entry.labourClass !== undefined && { labourClass: entry.labourClass }) },
    input,
    readBook(input),
  )?.attended ?? true;

async function named(db: Database, jobId: string, work: WorkedOn): Promise<string> {
  const [job, standing] = await Promise.all([jobs.find(db, jobId), standingOf(db, jobId)]);
  return `${job?.number ?? "another job"}, ${standing?.input ? wordingFor(standing.input).work(workOf(work)) : "its work"}`;
}

const later = (a: string, b: string): string => (a > b ? a : b);
const earlier = (a: string, b: string): string => (later(a, b) === a ? b : a);
const between = (from: string, to: string): number => fromMilli(milliOf(Math.max(0, Date.parse(to) - Date.parse(from))));
