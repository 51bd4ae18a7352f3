/** An earlier visit in the demo shop, from estimate to final account (fixtures/demo/closed-job.json), so that looking back shows something. */
import type { Desk } from "../acts/act.js";
import { carryOut } from "../acts/carryOut.js";
import { type Closing, closeJob } from "../acts/closeJob.js";
import { jobsRead } from "../acts/job.js";
import { recordAnswer } from "../acts/recordAnswer.js";
import { estimatePdf } from "../documents/estimatePdf.js";
import { papersOf } from "../http/doors/papers.js";
import { paperworkOf } from "../http/paperwork.js";
import type { CloseOutBasis } from "../records/closeOuts.js";
import type { Database } from "../records/database.js";
import { type BareInput, estimates } from "../records/estimates.js";
import { issue } from "../records/issue.js";
import { type JobValue, jobs } from "../records/jobs.js";
import { tellingOf } from "../records/keptOnce.js";
import { shopSettings } from "../records/settings.js";
import { recorded } from "../records/trail.js";
import { type UnitRecord, units } from "../records/units.js";
import { type LogEntry, type LogEntryValue, workLogTable } from "../records/workLog.js";

interface Told {
  readonly by: string;
  readonly at: string;
}

export interface ClosedDemo {
  readonly unit: UnitRecord & { readonly id: string };
  readonly job: JobValue & { readonly id: string };
  readonly estimate: { readonly id: string; readonly input: BareInput };
  readonly issued: Told & { readonly deliveredTo: string; readonly linkExpiresAt: string };
  readonly answer: Told & { readonly id: string; readonly writing: string; readonly recordedBy: string };
  readonly log: {
    readonly person: string;
    readonly on: string;
    readonly at: string;
    readonly entries: readonly Partial<LogEntryValue>[];
  };
  readonly closing: Told & Pick<CloseOutBasis, "terms" | "found" | "costs"> & { readonly id: string };
}

/** Throws when the content does not fit together: the demo is ours. */
export async function loadClosedDemo(db: Database, demo: ClosedDemo): Promise<void> {
  const { unit, job, estimate, issued, log, closing } = demo;
  const settings = await shopSettings(db);
  const { id: unitId, ...unitValue } = unit;
  await units.add(db, unitId, unitValue, issued.at);
  const { id: jobId, ...jobValue } = job;
  await jobs.add(db, jobId, jobValue, issued.at);
  const value = { jobId, rateBookId: settings.rateBookId, rateBookVersion: 1, input: estimate.input };
  const added = await estimates.add(db, estimate.id, value, issued.at);
  if (added.is !== "added") throw new Error(`The demo's closed job: its estimate is ${added.is}.`);

  const out = await issue(
    db,
    estimate.id,
    added.record.version,
    {
      by: issued.by,
      paperwork: await paperworkOf(db, added.record, new Date(issued.at)),
      link: { deliveredTo: issued.deliveredTo, expiresAt: issued.linkExpiresAt },
      address: () => "http://localhost/o",
      print: async (sheet, input) => (await estimatePdf(sheet, input)).bytes,
    },
    issued.at,
  );
  if (out.is !== "issued") throw new Error(`The demo's closed job: issuing answers ${out.is}.`);
  const { id, at, ...given } = demo.answer;
  const deskAt = (at: string, id: string): Desk => {
    return { db, at, now: new Date(at), job: jobsRead(db), papers: papersOf(db), newId: () => id };
  };
  const chosen = out.record.sheet!.options.flatMap((option) => (option.chosen ? [option.id] : []));
  const agreed = await carryOut(
    recordAnswer,
    deskAt(at, id),
    { ...given, answer: "agreed", channel: "in person", chosen },
    { estimate: estimate.id },
  );
  if (!agreed.ok) throw new Error(`The demo's closed job: answering answers ${agreed.refusal.is}.`);
  await logAll(db, jobId, log);
  const { by, at: closedAt, found, costs } = closing;
  const { on: closedOn, ...terms } = closing.terms;
  const wanted = { ...terms, by, closedOn, found: [...found], ...(costs && { costs }) };
  const closed = await carryOut(closeJob, deskAt(closedAt, closing.id), wanted as Closing, { job: jobId });
  if (!closed.ok) throw new Error(`The demo's closed job: closing answers ${closed.refusal.is}.`);
}

/** In one batch: one by one each entry would be held against the limit, which takes its time. */
async function logAll(db: Database, jobId: string, { person, on, at, entries }: ClosedDemo["log"]): Promise<void> {
  const rows = entries.map((entry, index): LogEntry => ({ id: `${jobId}-${index}`, jobId, at, person, workedOn: on, ...entry }));
  const events = await Promise.all(
    rows.map(async (row) => ({ is: "work logged" as const, content: { person, record: await tellingOf("work_log", row) } })),
  );
  await recorded(db, jobId, at, async () => ({ answer: undefined, writes: [db.insert(workLogTable).values(rows)], events }));
}
