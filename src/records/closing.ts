/** Closes a job, or corrects how it was closed: the account, its PDF, and what the shop learns go on record in one batch. */
import type { FinalAccount } from "../estimating/closeout/account/finalAccount.js";
import { agreedOf, allowedFor, type JobDone, quotedOf } from "../estimating/closeout/jobDone.js";
import { modelOf, observationsOf } from "../estimating/closeout/learning/observation.js";
import { estimate } from "../estimating/estimate.js";
import type { EstimateInput, Minor } from "../estimating/input.js";
import { type CloseOutRecord, closeOuts, closeOutsTable, standingOf } from "./closeOuts.js";
import { contentHash } from "./contentHash.js";
import type { Database, Instant } from "./database.js";
import { jobs } from "./jobs.js";
import { tellingOf } from "./keptOnce.js";
import { observations, observing, unobserving } from "./observations.js";
import { type Outcome, outcomesTable } from "./outcomes.js";
import { type Override, overridesTable } from "./overrides.js";
import { type ClosingWanted, type Reckoned, reckon, toClose } from "./reckoning.js";
import { sha256 } from "./sha256.js";
import { adding } from "./standardCosts.js";
import { type Decided, recorded, shortHead } from "./trail.js";

export interface Closing extends ClosingWanted {
  /** Ids of the record and, where the bill passes the limit, of the override. */
  readonly id: string;
  readonly overrideId: string;
  readonly by: string;
  /** Id of the record that stands, and why it is corrected. */
  readonly corrects?: string | undefined;
  readonly reason?: string | undefined;
  /** The total, tax included, that was looked at; another is not closed with. */
  readonly seen?: Minor | undefined;
  /** `agreed` has the paperwork it was issued with, and the chain's head as it stands now. */
  readonly print: (account: FinalAccount, agreed: EstimateInput, corrected: boolean) => Promise<Uint8Array>;
}

export type ClosingOutcome =
  | { readonly is: "closed"; readonly record: CloseOutRecord; readonly again: boolean }
  | { readonly is: "missing" }
  | { readonly is: "not agreed" }
  | { readonly is: "closed already"; readonly current: CloseOutRecord }
  | { readonly is: "nothing to correct"; readonly current?: CloseOutRecord }
  | { readonly is: "moved"; readonly total: Minor }
  | { readonly is: "unready"; readonly problems: Extract<Reckoned, { ok: false }>["problems"] };

export async function closeJob(db: Database, jobId: string, closing: Closing, at: Instant): Promise<ClosingOutcome> {
  if (!(await jobs.find(db, jobId))) return { is: "missing" };
  return recorded(db, jobId, at, async (head): Promise<Decided<ClosingOutcome>> => {
    const before = await closeOuts.ofJob(db, jobId);
    const same = before.find(({ id }) => id === closing.id);
    if (same) return { answer: { is: "closed", record: same, again: true } };
    const current = standingOf(before);
    if (current && closing.corrects === undefined) return { answer: { is: "closed already", current } };
    if (closing.corrects !== current?.id) return { answer: { is: "nothing to correct", ...(current && { current }) } };
    const ready = await toClose(db, jobId, closing);
    if (!ready) return { answer: { is: "not agreed" } };
    const { basis, job, agreement } = ready;
    const reckoned = reckon(job, basis);
    if (!reckoned.ok) return { answer: { is: "unready", problems: reckoned.problems } };

    const { result } = reckoned;
    const { total } = result.account.totals;
    if (closing.seen !== undefined && closing.seen !== total) return { answer: { is: "moved", total } };
    const agreed = agreedOf(job).input;
    const paperwork = { ...agreed.paperwork, date: basis.terms.on, chainHead: shortHead(head) };
    const pdf = await closing.print(result.account, { ...agreed, paperwork }, current !== undefined);
    const pass = overrideOf(jobId, closing.overrideId, result.account, at);
    const record: CloseOutRecord = {
      ...{ id: closing.id, jobId, at, closedOn: basis.terms.on, by: closing.by, agreementId: agreement.id, basis, result },
      contentHash: await contentHash({ basis, result }),
      pdfHash: await sha256(pdf),
      ...{ headNumber: head.number, headHash: head.hash },
      ...(pass && { overrideId: pass.id }),
      ...(current && { corrects: current.id, ...(closing.reason && { reason: closing.reason }) }),
    };
    const is = current ? "close-out corrected" : "closed out";
    return {
      answer: { is: "closed", record, again: false },
      writes: [
        ...(pass ? [db.insert(overridesTable).values(pass)] : []),
        db.insert(closeOutsTable).values({ ...record, pdf }),
        ...(await derived(db, record, job, current)),
      ],
      events: [
        ...(pass
          ? [{ is: "limit overridden" as const, content: { by: pass.by, record: await tellingOf("overrides", pass) } }]
          : []),
        { is, content: { by: closing.by, record: await tellingOf("close_outs", record) } },
      ],
    };
  });
}

/** A bill that stays within the limit needs none, whatever was said. */
function overrideOf(jobId: string, id: string, { above, held }: FinalAccount, at: Instant): Override | undefined {
  return above && { id, jobId, at, of: "close-out", ...above, refusal: "above limit", over: held.over };
}

/** What boards and learning read; what the record before it said is taken back. */
async function derived(db: Database, record: CloseOutRecord, job: JobDone, before: CloseOutRecord | undefined) {
  const { jobId, closedOn } = record;
  const { rateBook, currency } = agreedOf(job).input;
  const allowed = allowedFor(job);
  if (!allowed.ok) throw new Error("A close-out without problems has no allowed work.");
  const seen = observationsOf({ job: jobId, input: allowed.allowed.input, log: job.log }, rateBook) ?? [];
  const was = before ? await observations(db, rateBook, { jobs: [jobId] }) : [];
  const { jobId: _, ...figures } = outcomeFrom(record, job);
  return [
    db
      .insert(outcomesTable)
      .values({ jobId, ...figures })
      .onConflictDoUpdate({ target: outcomesTable.jobId, set: { ...NO_COSTS, ...figures } }),
    ...(before ? [...adding(db, currency, before.closedOn.slice(0, 7), was, -1), ...unobserving(db, jobId)] : []),
    ...observing(db, jobId, closedOn, rateBook, seen),
    ...adding(db, currency, closedOn.slice(0, 7), seen),
  ];
}

const NO_COSTS = { cost: null, plannedMargin: null };

/** Work nobody agreed to is no fault of the estimate, and is left out of what the job came to. */
export function outcomeFrom({ id, jobId, closedOn, result }: CloseOutRecord, job: JobDone): Outcome {
  const { closeOut, account, margin, planned } = result;
  const agreed = agreedOf(job);
  const { risk } = withRisk(agreed.input);
  const { revenue, margin: earned } = margin ?? { revenue: account.totals.withoutTax, margin: undefined };
  return {
    ...{
      jobId,
      closeOutId: id,
      closedOn,
      month: closedOn.slice(0, 7),
      model: modelOf(agreed.input),
      currency: closeOut.currency,
    },
    quotedTotal: quotedOf(job).sheet.totals.total,
    agreedTotal: agreed.sheet.totals.total,
    billedTotal: account.totals.total,
    revenue,
    ...(earned !== undefined && { cost: revenue - earned }),
    ...(planned && { plannedMargin: planned.margin }),
    ...{ p50: risk.p50, p80: risk.p80, actual: closeOut.total.actual - closeOut.total.variance["not agreed"] },
    agreedMinutes: agreed.sheet.time.attended,
    allowedMinutes: closeOut.attended.allowed,
    actualMinutes: closeOut.attended.actual,
  };
}

function withRisk(input: EstimateInput) {
  const outcome = estimate(input, { risk: true });
  if (!outcome.ok || !outcome.sheet.risk) throw new Error("What was agreed to has problems.");
  return { risk: outcome.sheet.risk };
}
