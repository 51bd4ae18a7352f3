/** What the bench put on record of a job, as the engine's close-out reads it. */
import type { Override, WorkLog } from "../estimating/closeout/log/workLog.js";
import { partOf, timeOf } from "./asWork.js";
import type { Database } from "./database.js";
import { overridesOf } from "./overrides.js";
import { tickOffsOf } from "./tickOffs.js";
import { timersOf } from "./timers.js";
import { entriesOf, type LogEntry } from "./workLog.js";

/**
 * Oldest first, timers that still run last. An entry of time and of a part has the same id in both lists. Entries that tell only what
 * parts sold for (`amountsOnly`) name no pieces, so they are not in it.
 */
export async function engineLog(db: Database, jobId: string, withoutTimer?: string): Promise<WorkLog> {
  const [entries, overrides, timers] = await Promise.all([entriesOf(db, jobId), overridesOf(db, jobId), timersOf(db, jobId)]);
  const passes = new Map(overrides.map(({ id, by, reason }): [string, Override] => [id, { by, reason }]));
  const pass = ({ overrideId }: LogEntry) => (overrideId === undefined ? undefined : passes.get(overrideId));
  return {
    time: [
      ...entries.flatMap((entry) => timeOf(entry, pass(entry)) ?? []),
      ...timers
        .filter(({ id }) => id !== withoutTimer)
        .flatMap((timer) => timeOf({ ...timer, workedOn: timer.startedAt.slice(0, 10) }) ?? []),
    ],
    parts: entries.flatMap((entry) => partOf(entry, pass(entry)) ?? []),
  };
}

/** Entries with a selling price of parts and no pieces, as they were made before parts were told piece by piece. */
export const amountsOnly = async (db: Database, jobId: string): Promise<LogEntry[]> =>
  (await entriesOf(db, jobId)).filter(({ parts }) => parts !== undefined);

/** Counts ticked off, by work item. An item that was never ticked off is absent. */
export const doneCounts = async (db: Database, jobId: string): Promise<Record<string, number>> =>
  Object.fromEntries((await tickOffsOf(db, jobId)).map(({ item, count }) => [item, count]));
