/** An earlier visit in the demo shop, from estimate to final account (fixtures/demo/closed-job.json), so that looking back shows something. */
import { addEstimate } from "../acts/beginDraft.js";
import { closeJob } from "../acts/closeJob.js";
import { issueEstimate } from "../acts/issue.js";
import { recordAnswer } from "../acts/recordAnswer.js";
import { addUnit } from "../acts/unit.js";
import { addJob } from "../acts/visit.js";
import { estimatePdf } from "../documents/estimatePdf.js";
import type { CloseOutBasis } from "../records/closeOuts.js";
import type { Database } from "../records/database.js";
import type { BareInput } from "../records/estimates.js";
import type { JobValue } from "../records/jobs.js";
import { tellingOf } from "../records/keptOnce.js";
import { shopSettings } from "../records/settings.js";
import { recorded } from "../records/trail.js";
import type { UnitRecord } from "../records/units.js";
import { type LogEntry, type LogEntryValue, workLogTable } from "../records/workLog.js";
import { doneAt } from "./demo.js";

interface Told {
  readonly by: string;
  readonly at: string;
}

export interface ClosedDemo {
  readonly unit: UnitRecord & { readonly id: string };
  readonly job: JobValue & { readonly id: string };
  readonly estimate: { readonly id: string; readonly input: BareInput };
  readonly issued: Told;
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
  await doneAt(db, issued.at, addUnit, unit, {});
  await doneAt(db, issued.at, addJob, job, {});
  const jobId = job.id;
  const value = { id: estimate.id, jobId, rateBookId: settings.rateBookId, rateBookVersion: 1, input: estimate.input };
  await doneAt(db, issued.at, addEstimate, value, {});
  const out = await doneAt(
    db,
    issued.at,
    issueEstimate,
    { by: issued.by },
    {
      ...{ id: estimate.id, seen: "any" as const },
      print: (sheet, whole) => estimatePdf(sheet, whole),
    },
  );
  const { id, at, ...given } = demo.answer;
  const chosen = out.record.sheet!.options.flatMap((option) => (option.chosen ? [option.id] : []));
  await doneAt(
    db,
    at,
    recordAnswer,
    { ...given, answer: "agreed", channel: "in person", chosen },
    { estimate: estimate.id },
    { newId: () => id },
  );
  await logAll(db, jobId, log);
  const { by, at: closedAt, found, costs } = closing;
  const { on: closedOn, ...terms } = closing.terms;
  const wanted = { ...terms, by, closedOn, found: [...found], ...(costs && { costs }) };
  await doneAt(db, closedAt, closeJob, wanted, { job: jobId }, { newId: () => closing.id });
}

/** In one batch: one by one each entry would be held against the limit, which takes its time. */
async function logAll(db: Database, jobId: string, { person, on, at, entries }: ClosedDemo["log"]): Promise<void> {
  const rows = entries.map((entry, index): LogEntry => ({ id: `${jobId}-${index}`, jobId, at, person, workedOn: on, ...entry }));
  const events = await Promise.all(
    rows.map(async (row) => ({ is: "work logged" as const, content: { person, record: await tellingOf("work_log", row) } })),
  );
  await recorded(db, jobId, at, async () => ({ answer: undefined, writes: [db.insert(workLogTable).values(rows)], events }));
}
