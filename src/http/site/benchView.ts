/** What the bench page shows, read from the records. */
import type { Context } from "hono";
import type { EstimateInput } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import { type BenchView, type Need, type ReadingRow, type RunningTimer, workValue } from "../../pages/bench/view.js";
import { doneCounts } from "../../records/benchLog.js";
import { closedOn } from "../../records/closed.js";
import { jobs } from "../../records/jobs.js";
import { readingsOf } from "../../records/readings.js";
import { type Standing, standingOf } from "../../records/standing.js";
import { type Timer, timerBy, timersOf } from "../../records/timers.js";
import { entriesOf, type LogEntry } from "../../records/workLog.js";
import { plainNumber } from "../../wording/figures.js";
import { clock } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { needsOf, wantedOf } from "./benchNeeds.js";
import { leaveIn, worksOf } from "./benchWorks.js";
import { benchScriptFor, frameFor } from "./frame.js";
import { type JobSubject, jobSubject, lastHand } from "./jobSubject.js";
import { logRow, workedOnTitle } from "./logRows.js";
import { agreedProps } from "./standing.js";

export interface OpenBench {
  readonly subject: JobSubject;
  readonly standing: Standing & { readonly input: EstimateInput };
  /** Who works. */
  readonly by: string;
  readonly revision: string;
  readonly sheet: Sheet;
  readonly entries: readonly LogEntry[];
  readonly needs: readonly Need[];
}

/** Undefined where there is no job, or nothing to work by. */
export async function openBench(c: Context<AppEnv>, id: string, named?: string): Promise<OpenBench | undefined> {
  const subject = await jobSubject(c, id);
  const standing = subject && (await standingOf(c.var.db, id));
  const latest = subject?.revisions.at(-1);
  const sheet = latest?.sheet ?? standing?.agreed?.sheet;
  if (!subject || !standing?.input || !latest || !sheet) return undefined;
  const entries = await entriesOf(c.var.db, id);
  const by = (named ?? c.var.staff?.name ?? entries.at(-1)?.person ?? lastHand(subject)).trim();
  const open = { subject, standing: { ...standing, input: standing.input }, by, revision: latest.id, sheet, entries };
  return { ...open, needs: needsOf(open.standing, entries) };
}

export type BenchShown = Omit<BenchView, "fields" | "errors" | "token" | "say" | "refusal">;

export async function benchView(c: Context<AppEnv>, open: OpenBench): Promise<BenchShown> {
  const { subject, standing, by, revision, sheet, entries, needs } = open;
  const { db } = c.var;
  const { job, head, settings, tongue } = subject;
  const { input, agreed } = standing;
  const [done, readings, mine, timers, closed] = await Promise.all([
    doneCounts(db, job.id),
    readingsOf(db, job.id),
    timerBy(db, by),
    timersOf(db, job.id),
    closedOn(db, job.id),
  ]);
  const at = (iso: string) => clock(iso, tongue.locale, settings.timeZone);
  const timer = mine && (await running(c, mine, open, at));
  const others = timers.filter(({ person }) => person !== by);
  return {
    frame: frameFor(c, settings.name),
    script: benchScriptFor(c),
    job: head,
    at: at(c.var.clock().toISOString()),
    ...{ tongue, input, sheet, revision, by, needs },
    ...(closed !== undefined && { closedOn: closed }),
    ...(agreed && { agreed: agreedProps(agreed) }),
    ...(timer && { timer }),
    others: await Promise.all(others.map((each) => running(c, each, open, at))),
    ...worksOf(open, done),
    leaveIn: leaveIn(sheet, standing),
    readings: readings.map((reading): ReadingRow => {
      const said = (figure: number) => `${plainNumber(figure, tongue.locale)} ${reading.unit}`;
      const { expected, found, label, person, assembly } = reading;
      const where = input.map?.assemblies.find(({ id }) => id === assembly)?.name;
      return {
        ...{ label, person, found: said(found), at: at(reading.at) },
        ...(where !== undefined && { where }),
        ...(expected !== undefined && { expected: said(expected), off: said(Math.round((found - expected) * 1000) / 1000) }),
      };
    }),
    wanted: wantedOf(
      input,
      readings.map(({ label }) => label),
    ),
    recent: entries
      .slice(-5)
      .reverse()
      .map((entry) => logRow(entry, input, [], subject.when)),
  };
}

async function running(
  c: Context<AppEnv>,
  timer: Timer,
  { subject, standing }: OpenBench,
  at: (iso: string) => string,
): Promise<RunningTimer> {
  const here = timer.jobId === subject.job.id;
  const input = here ? standing.input : (await standingOf(c.var.db, timer.jobId))?.input;
  const job = here ? undefined : await jobs.find(c.var.db, timer.jobId);
  return {
    person: timer.person,
    title: input ? workedOnTitle(timer, input) : "work",
    startedAt: timer.startedAt,
    since: at(timer.startedAt),
    work: workValue(timer),
    ...(job && { elsewhere: { id: job.id, number: job.number } }),
  };
}
