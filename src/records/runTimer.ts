/** Starting a timer, and stopping it into the work log. Work must be agreed before a timer runs on it: there is no override. */
import type { IsoDate } from "../estimating/input.js";
import { engineLog } from "./benchLog.js";
import { closedOn } from "./closed.js";
import { isTaken } from "./constraint.js";
import type { Database, Instant } from "./database.js";
import { elsewhere } from "./elsewhere.js";
import { type EntryRefused, entryProblems, type LimitRefusal } from "./logRefusal.js";
import { type LogOutcome, logWork, utc } from "./logWork.js";
import type { OverrideValue } from "./overrides.js";
import { standingOf } from "./standing.js";
import { type Timer, type TimerValue, timer, timerBy, timersTable } from "./timers.js";
import { everyEntryOf } from "./workLog.js";

export type StartOutcome =
  | { readonly is: "started"; readonly record: Timer }
  | { readonly is: "missing" }
  | EntryRefused
  | Extract<LimitRefusal, { is: "not agreed" }>;

/** `startedAt` in any zone. A timer sent twice runs once. */
export async function startTimer(
  db: Database,
  jobId: string,
  { id, startedAt, ...value }: TimerValue & { readonly id: string; readonly startedAt: string },
): Promise<StartOutcome> {
  const standing = await standingOf(db, jobId);
  if (!standing?.input) return { is: "missing" };
  const known = { ...standing, input: standing.input };
  const record: Timer = { ...value, id, jobId, startedAt: utc(startedAt) };
  const before = await timer(db, id);
  const stopped = (await everyEntryOf(db, jobId)).some((each) => each.id === id);
  if (before || stopped) return { is: "started", record: before ?? record };
  const entry = { ...record, workedOn: record.startedAt.slice(0, 10) };
  const [log, closed] = [await engineLog(db, jobId), await closedOn(db, jobId)];
  const problems = entryProblems(entry, known, log, closed, undefined);
  const unagreed = problems.find(({ name }) => name === "work not agreed");
  if (unagreed?.name === "work not agreed" && problems.length === 1) return { is: "not agreed", why: unagreed.why };
  const all = problems.length > 0 ? problems : await elsewhere(db, jobId, entry, known.input);
  if (all.length > 0) return { is: "refused", problems: all };
  try {
    await db.insert(timersTable).values(record);
    return { is: "started", record };
  } catch (error) {
    if (!isTaken(error)) throw error;
    // Another device was quicker.
    return startTimer(db, jobId, { id, startedAt, ...value });
  }
}

export interface Stopping {
  readonly overrideId: string;
  readonly endedAt: string;
  readonly workedOn: IsoDate;
  readonly note?: string;
  readonly override?: OverrideValue | undefined;
}

/** The timer goes only when its time is in the log, as an entry of the same id: a refused stop loses nothing. */
export async function stopTimer(
  db: Database,
  jobId: string,
  person: string,
  { overrideId, override, ...stop }: Stopping,
  at: Instant,
): Promise<LogOutcome | { readonly is: "not running" }> {
  const running = await timerBy(db, person);
  if (running?.jobId !== jobId) return { is: "not running" };
  const { id, jobId: _, ...value } = running;
  return logWork(db, jobId, { id, overrideId, override, entry: { ...value, ...stop }, stops: id }, at);
}
