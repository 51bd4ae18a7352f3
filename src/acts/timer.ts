/** A timer of a person on a job: it is on no record until it is paused, and then its time is in the work log. */
import { eq } from "drizzle-orm";
import { z } from "zod";
import type { WorkLog } from "../estimating/closeout/log/workLog.js";
import type { IsoDate } from "../estimating/input.js";
import { type Timer, type TimerValue, timersTable } from "../records/timers.js";
import { act, type Decided, type Desk, type Done, refused } from "./act.js";
import { timeOf } from "./asWork.js";
import { elsewhere } from "./elsewhere.js";
import { decimal, hand, maybe, moment } from "./field.js";
import { handOf } from "./hand.js";
import type { JobAsItStands } from "./job.js";
import { keptLogEntry, labourClass, logged, noteKey, type OnJob, override, person, utc, WHO, workKeys } from "./logWork.js";
import { entryProblems, mayLook, NO_JOB, refusedFor, unagreedWork } from "./mayLog.js";
import { today } from "./today.js";

const startKeys = { ...workKeys, labourClass, startedAt: maybe(moment("Start").meta({ description: "Now when absent" })) };
const stopKeys = {
  endedAt: maybe(moment("End").meta({ description: "Now when absent" })),
  worked: maybe(decimal("Minutes worked", { decimals: 3 }).meta({ description: "Since it was started, in place of `endedAt`" })),
  note: noteKey,
  override,
};
const whose = hand(WHO, { description: "Whose timer; who is signed in, when absent" });

export const keptTimer = z
  .strictObject({
    ...{ id: z.string(), jobId: z.string() },
    ...{ ...workKeys, labourClass, person, startedAt: z.string().meta({ format: "date-time" }) },
  })
  .meta({ id: "Timer" });

/** Work must be agreed before a timer runs on it, or be looking that the intake receipt allows: there is no override. */
export const startTimer = act({
  name: "startTimer",
  title: "Start a timer on agreed work",
  fields: z.strictObject({ ...startKeys, person: whose }).meta({ id: "TimerStart" }),
  answer: keptTimer,
  decide: async (desk, { person: named, ...value }, on: OnJob) => {
    const job = await desk.job(on.job);
    if (!job?.latest) return NO_JOB;
    const who = handOf(desk, named, WHO, "/person");
    return "refused" in who ? who : started(desk, job, { ...value, person: who.by });
  },
});

/** Paused, and its time logged: while the log refuses it, the timer goes on, so nothing is lost. */
export const stopTimer = act({
  name: "stopTimer",
  title: "Stop the timer of a person and log its time",
  fields: z.strictObject({ ...stopKeys, person: whose }).meta({ id: "TimerStop" }),
  answer: keptLogEntry,
  decide: async (desk, { person: named, ...stop }, on: OnJob) => {
    const job = await desk.job(on.job);
    if (!job?.latest) return NO_JOB;
    const who = handOf(desk, named, WHO, "/person");
    if ("refused" in who) return who;
    const running = job.timers.find((timer) => timer.person === who.by);
    if (!running)
      return refused("no timer running", {
        detail: "No timer of this person is running on this job, so there is nothing to pause.",
      });
    return stopped(desk, job, running, stop);
  },
});

/** To other work: the timer that runs on the job is paused for it. */
export const switchTimer = act({
  name: "switchTimer",
  title: "Start a timer, and pause the one that runs",
  fields: z.strictObject({ ...startKeys, ...stopKeys, person: whose }),
  answer: keptTimer,
  decide: async (desk, { person: named, endedAt, worked, note, override: pass, ...value }, on: OnJob) => {
    const job = await desk.job(on.job);
    if (!job?.latest) return NO_JOB;
    const who = handOf(desk, named, WHO, "/person");
    if ("refused" in who) return who;
    const start = { ...value, person: who.by };
    const running = job.timers.find((timer) => timer.person === who.by);
    if (!running) return started(desk, job, start);
    const until = endedAt ?? start.startedAt;
    const stop = await stopped(desk, job, running, {
      ...(until !== undefined && { endedAt: until }),
      ...(worked !== undefined && { worked }),
      ...(note !== undefined && { note }),
      ...(pass && { override: pass }),
    });
    if ("refused" in stop) return stop;
    const time = timeOf(stop.answer)!;
    const log = job.log(running.id);
    const next = await started(desk, job, start, { ...log, time: [...log.time, time] });
    return "refused" in next ? next : { ...stop, answer: next.answer, writes: [...stop.writes!, ...next.writes!] };
  },
});

/** Of someone whose account is closed, wherever it runs; where the log refuses its time it goes on, so nothing is lost. */
export async function stoppedOf(desk: Desk, person: string, note: string): Promise<Done<unknown> | undefined> {
  const [running] = await desk.db.select().from(timersTable).where(eq(timersTable.person, person));
  const job = running && (await desk.job(running.jobId));
  const timer = job?.timers.find(({ id }) => id === running?.id);
  const stop = job && timer && (await stopped(desk, job, timer, { note }));
  return stop && !("refused" in stop) ? stop : undefined;
}

interface Stop {
  readonly endedAt?: string;
  readonly worked?: number;
  readonly note?: string;
  readonly override?: { readonly by: string; readonly reason: string };
}

/** The entry has the timer's id, so that no second one is made of it. */
function stopped(
  desk: Desk,
  job: JobAsItStands,
  running: JobAsItStands["timers"][number],
  { endedAt = desk.at, worked, note, override: pass }: Stop,
) {
  const { id, jobId: _, jobNumber: __, ...value } = running;
  const end =
    worked === undefined ? endedAt : new Date(Date.parse(running.startedAt) + Math.round(worked * 60_000)).toISOString();
  const entry = { ...value, endedAt: end, workedOn: begunOn(running, job), ...(note !== undefined && { note }) };
  return logged(desk, job, { id, entry, override: pass, stops: id });
}

async function started(
  desk: Desk,
  job: JobAsItStands,
  { startedAt = desk.at, ...value }: TimerValue & { readonly startedAt?: string },
  log: WorkLog = job.log(),
): Promise<Decided<Timer>> {
  const record: Timer = { ...value, id: desk.newId(), jobId: job.id, startedAt: utc(startedAt) };
  const entry = { ...record, workedOn: begunOn(record, job) };
  const looked = mayLook(job, entry);
  const problems = entryProblems(job, entry, { log }).filter(({ name }) => !(looked && name === "work not agreed"));
  const [first] = problems;
  if (first?.name === "work not agreed" && problems.length === 1) {
    const { is, detail } = unagreedWork(job, first.why);
    return refused(is, { detail });
  }
  const all = problems.length > 0 ? problems : await elsewhere(desk, job, entry, job.input()!);
  if (all.length > 0) return refusedFor(all, job);
  return { answer: record, writes: [desk.db.insert(timersTable).values(record)] };
}

const begunOn = ({ startedAt }: { readonly startedAt: string }, { settings }: JobAsItStands): IsoDate =>
  today(new Date(startedAt), settings.timeZone);
