/** What is done at the bench, and the close-out, as a request would do it. `id` is that of the record; `once`: under a key. */
import type { Outcome } from "../../../src/acts/carryOut.js";
import { type Closing, closeJob } from "../../../src/acts/closeJob.js";
import { type JobAsItStands, jobAsItStands } from "../../../src/acts/job.js";
import { logWork } from "../../../src/acts/logWork.js";
import { takeReading } from "../../../src/acts/takeReading.js";
import { tickOff } from "../../../src/acts/tickOff.js";
import { startTimer, stopTimer } from "../../../src/acts/timer.js";
import { withdrawEntry } from "../../../src/acts/withdrawEntry.js";
import type { Database } from "../../../src/records/database.js";
import type { LogEntryValue } from "../../../src/records/workLog.js";
import { deskAt, done } from "./desk.js";

export interface Made {
  readonly id?: string;
  readonly job: string;
  readonly when: string;
  readonly once?: string;
}

const at = (db: Database, { id, when }: Made) => deskAt(db, when, id);

export const stands = async (db: Database, job: string): Promise<JobAsItStands> => (await jobAsItStands(db, job))!;

export const log = (
  db: Database,
  made: Made,
  entry: Partial<LogEntryValue> & { readonly beyond?: boolean },
  override?: { readonly by: string; readonly reason: string },
) => {
  const whole = { person: "Ines", workedOn: "2026-11-25", ...entry, ...(override && { override }) };
  return done(logWork, at(db, made), whole, { job: made.job }, made.once);
};

export const start = (db: Database, made: Made, timer: Parameters<typeof startTimer.decide>[1]) =>
  done(startTimer, at(db, made), timer, { job: made.job }, made.once);

export const stop = (db: Database, made: Made, timer: Parameters<typeof stopTimer.decide>[1]) =>
  done(stopTimer, at(db, made), timer, { job: made.job }, made.once);

export const tick = (db: Database, made: Made, value: Parameters<typeof tickOff.decide>[1]) =>
  done(tickOff, at(db, made), value, { job: made.job }, made.once);

export const read = (db: Database, made: Made, value: Parameters<typeof takeReading.decide>[1]) =>
  done(takeReading, at(db, made), value, { job: made.job }, made.once);

export const withdraw = (db: Database, made: Made, entry: string, why: { readonly by: string; readonly reason: string }) =>
  done(withdrawEntry, at(db, made), why, { job: made.job, entry }, made.once);

export const close = (db: Database, made: Made, value: Closing) =>
  done(closeJob, at(db, made), value, { job: made.job }, made.once);

/** Throws what kept it from being done. */
export function answerOf<A>(outcome: Outcome<A>): A {
  if (!outcome.ok || "replayed" in outcome) throw new Error(JSON.stringify(outcome));
  return outcome.answer;
}

/** Refused by this name. */
export const not = (is: string, more: object = {}) => ({ ok: false, refusal: { is, ...more } });
