/** A job as it is closed: from what is on record, what it comes to. The same basis comes to the same result whenever it is reckoned. */
import { pricedSet } from "../estimating/agreement/choices.js";
import { type FinalAccount, finalAccount } from "../estimating/closeout/account/finalAccount.js";
import { marginOf, plannedMargin } from "../estimating/closeout/account/margin.js";
import type { AccountTerms } from "../estimating/closeout/account/terms.js";
import { agreedOf, foundByLog, type JobDone, type NumberedRevision } from "../estimating/closeout/jobDone.js";
import { type CloseOut, closeOut } from "../estimating/closeout/variance/closeOut.js";
import type { LogProblem, Problem } from "../estimating/problems.js";
import { type Agreement, agreedTo, answersOf, standingAnswer } from "./agreements.js";
import { doneCounts, engineLog } from "./benchLog.js";
import type { CloseOutBasis, CloseOutResult, Step } from "./closeOuts.js";
import type { Database } from "./database.js";
import { type Estimate, estimates } from "./estimates.js";
import { issues } from "./issues.js";

export interface ClosingWanted {
  readonly terms: AccountTerms;
  /** Possible work that proved necessary, beyond what the log tells; ids of its groups on the sheet. */
  readonly found: readonly string[];
  /** By work item, in place of what was ticked off. */
  readonly done?: Readonly<Record<string, number>> | undefined;
  readonly costs?: CloseOutBasis["costs"] | undefined;
}

export interface ToClose {
  readonly basis: CloseOutBasis;
  readonly agreement: Agreement;
  readonly job: JobDone;
}

/** Undefined while nothing is agreed. `log` and counts are those of now. */
export async function toClose(db: Database, jobId: string, wanted: ClosingWanted): Promise<ToClose | undefined> {
  const [answers, revisions, issued] = await Promise.all([
    answersOf(db, jobId),
    estimates.ofJob(db, jobId),
    issues.ofJob(db, jobId),
  ]);
  const agreement = agreedTo(answers);
  if (!agreement) return undefined;
  const [log, ticked] = await Promise.all([engineLog(db, jobId), doneCounts(db, jobId)]);
  const [quoted] = issued;
  const answered = issued
    .filter(({ revision }) => revision <= agreement.revision)
    .flatMap(({ id }) => standingAnswer(answers, id) ?? [])
    .filter(({ answer }) => answer !== "declined");
  const steps: [Step, ...Step[]] = [
    { estimateId: quoted!.id, revision: quoted!.revision, contentHash: quoted!.contentHash },
    ...answered.map(({ estimateId, revision, contentHash, chosen, struck }): Step => {
      return { estimateId, revision, contentHash, set: { chosen, struck } };
    }),
  ];
  const latest = revisions.at(-1)!;
  const { terms, costs } = wanted;
  const before: CloseOutBasis = {
    steps,
    found: [],
    done: wanted.done ?? ticked,
    log,
    ...(latest.id !== agreement.estimateId && { current: workedBy(latest) }),
    terms,
    ...(costs && { costs }),
  };
  const job = await jobDoneOf(db, before);
  const found = [...new Set([...foundByLog(agreedOf(job).input, log), ...wanted.found])].sort();
  return { basis: { ...before, found }, agreement, job: { ...job, found } };
}

const workedBy = ({ rateBookId, rateBookVersion, input }: Estimate) => ({ rateBookId, rateBookVersion, input });

/** Throws when a revision it rests on is gone: they are never deleted. */
export async function jobDoneOf(db: Database, basis: CloseOutBasis): Promise<JobDone> {
  const { steps, found, done, log, current } = basis;
  const [first, ...rest] = await Promise.all(steps.map((step) => revisionOf(db, step)));
  return {
    revisions: [first!, ...rest],
    found,
    done,
    log,
    ...(current && { current: await estimates.inputOf(db, { jobId: "", ...current }) }),
  };
}

async function revisionOf(db: Database, { estimateId, revision, set }: Step): Promise<NumberedRevision> {
  const estimate = await estimates.find(db, estimateId);
  if (!estimate?.sheet) throw new Error(`Estimate ${estimateId}, which a close-out rests on, is gone.`);
  const input = await estimates.inputOf(db, estimate);
  if (!set) return { revision, input, sheet: estimate.sheet };
  const priced = pricedSet(input, set);
  if ("is" in priced) throw new Error(`A close-out names what revision ${revision} does not have.`);
  return { revision, ...priced };
}

export type Reckoned =
  | { readonly ok: true; readonly result: CloseOutResult }
  /** Pointers are into the log, and into the terms under /terms. */
  | {
      readonly ok: false;
      readonly problems: readonly (Problem | LogProblem)[];
      readonly partial?: { readonly closeOut?: CloseOut | undefined; readonly account?: FinalAccount | undefined };
    };

export function reckon(job: JobDone, { terms, costs }: Pick<CloseOutBasis, "terms" | "costs">): Reckoned {
  const [compared, billed] = [closeOut(job), finalAccount(job, terms)];
  if (!compared.ok || !billed.ok) {
    const problems = [...(billed.ok ? [] : billed.problems), ...(compared.ok ? [] : compared.problems)];
    const each = new Map(problems.map((problem) => [JSON.stringify(problem), problem]));
    const partial = {
      closeOut: compared.ok ? compared.closeOut : compared.partial,
      account: billed.ok ? billed.account : billed.partial,
    };
    return { ok: false, problems: [...each.values()], partial };
  }
  const { account } = billed;
  return {
    ok: true,
    result: {
      closeOut: compared.closeOut,
      account,
      ...(costs && { margin: marginOf(job, account, costs), planned: plannedMargin(agreedOf(job).sheet, costs) }),
    },
  };
}
