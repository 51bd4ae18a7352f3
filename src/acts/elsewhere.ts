/** Nobody works on two jobs at once: time of the same person on another job. The log of one job cannot see it. */
import { readBook } from "../estimating/book.js";
import { wordingFor } from "../estimating/closeout/log/checkEntry.js";
import { classWorked, milliOf } from "../estimating/closeout/log/spent.js";
import type { EstimateInput } from "../estimating/input.js";
import { fromMilli } from "../estimating/money/scales.js";
import type { LogProblem } from "../estimating/problems.js";
import { type LogEntryValue, timedElsewhere, type WorkedOn } from "../records/workLog.js";
import type { Desk } from "./act.js";
import { workOf } from "./asWork.js";
import type { JobAsItStands } from "./job.js";

type Timed = WorkedOn & Pick<LogEntryValue, "person" | "labourClass" | "startedAt" | "endedAt">;

/** Moments in UTC; `entry` without an end is a timer about to run. */
export async function elsewhere(desk: Desk, job: JobAsItStands, entry: Timed, input: EstimateInput): Promise<LogProblem[]> {
  const { person, startedAt, endedAt } = entry;
  if (startedAt === undefined) return [];
  const at = { where: `${person}, ${wordingFor(input).work(workOf(entry))}`, pointer: "/startedAt" };
  const running = job.everyTimer.find((timer) => timer.person === person && timer.jobId !== job.id);
  if (running) {
    const other = named(await desk.job(running.jobId), running);
    if (endedAt === undefined) return [{ ...at, name: "two timers", other }];
    if (endedAt > running.startedAt && isAttended(entry, input))
      return [{ ...at, name: "times overlap", other, minutes: between(later(startedAt, running.startedAt), endedAt) }];
  }
  if (endedAt === undefined || !isAttended(entry, input)) return [];
  for (const row of await timedElsewhere(desk.db, job.id, person, startedAt, endedAt)) {
    const theirs = await desk.job(row.jobId);
    const known = theirs?.input();
    if (known && !isAttended(row, known)) continue;
    const minutes = between(later(startedAt, row.startedAt!), earlier(endedAt, row.endedAt!));
    return [{ ...at, name: "times overlap", other: named(theirs, row), minutes }];
  }
  return [];
}

const isAttended = (entry: Timed, input: EstimateInput): boolean =>
  classWorked(
    { work: workOf(entry), ...(entry.labourClass !== undefined && { labourClass: entry.labourClass }) },
    input,
    readBook(input),
  )?.attended ?? true;

function named(job: JobAsItStands | undefined, work: WorkedOn): string {
  const input = job?.input();
  return `${job?.job.number ?? "another job"}, ${input ? wordingFor(input).work(workOf(work)) : "its work"}`;
}

const later = (a: string, b: string): string => (a > b ? a : b);
const earlier = (a: string, b: string): string => (later(a, b) === a ? b : a);
const between = (from: string, to: string): number => fromMilli(milliOf(Math.max(0, Date.parse(to) - Date.parse(from))));
