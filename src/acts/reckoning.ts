import { type FinalAccount, finalAccount } from "../estimating/closeout/account/finalAccount.js";
import { marginOf, plannedMargin } from "../estimating/closeout/account/margin.js";
import type { AccountTerms } from "../estimating/closeout/account/terms.js";
import { agreedOf, foundByLog, type JobDone, type NumberedRevision } from "../estimating/closeout/jobDone.js";
import { type CloseOut, closeOut } from "../estimating/closeout/variance/closeOut.js";
import type { LogProblem, Problem } from "../estimating/problems.js";
import { resolve } from "../estimating/resolve.js";
import type { CloseOutBasis, CloseOutResult, Step } from "../records/closeOuts.js";
import type { JobAsItStands } from "./job.js";

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
  readonly done: JobDone;
}

/** Undefined while nothing is agreed. */
export function toClose(job: JobAsItStands, { terms, costs, ...wanted }: ClosingWanted): ToClose | undefined {
  const agreement = job.agreed()?.agreement;
  const [quoted] = job.issues;
  if (!agreement || !quoted) return undefined;
  const answered = job.issues
    .filter(({ revision }) => revision <= agreement.revision)
    .flatMap(({ id }) => job.answerTo(id) ?? [])
    .filter(({ answer }) => answer !== "declined");
  const steps: [Step, ...Step[]] = [
    { estimateId: quoted.id, revision: quoted.revision, contentHash: quoted.contentHash },
    ...answered.map(({ estimateId, revision, contentHash, chosen, struck }): Step => {
      return { estimateId, revision, contentHash, set: { chosen, struck } };
    }),
  ];
  const { id, rateBookId, rateBookVersion, input } = job.latest!;
  const log = job.log();
  const before: CloseOutBasis = {
    steps,
    found: [],
    done: wanted.done ?? job.done,
    log,
    ...(id !== agreement.estimateId && { current: { rateBookId, rateBookVersion, input } }),
    terms,
    ...(costs && { costs }),
  };
  const done = jobDone(job, before);
  const found = [...new Set([...foundByLog(agreedOf(done).input, log), ...wanted.found])].sort();
  return { basis: { ...before, found }, done: { ...done, found } };
}

/** `basis` of this very job. Throws when a revision it rests on is gone: they are never deleted. */
export function jobDone(job: JobAsItStands, { steps, found, done, log, current }: CloseOutBasis): JobDone {
  const [first, ...rest] = steps.map((step) => revisionOf(job, step));
  return { revisions: [first!, ...rest], found, done, log, ...(current && { current: resolve(job.inputOf(current)) }) };
}

function revisionOf(job: JobAsItStands, { estimateId, revision, set }: Step): NumberedRevision {
  const estimate = job.revision(estimateId);
  if (!estimate?.sheet) throw new Error(`Estimate ${estimateId}, which a close-out rests on, is gone.`);
  if (!set) return { revision, input: resolve(job.inputOf(estimate)), sheet: estimate.sheet };
  const priced = job.priced(estimateId, set);
  if ("is" in priced) throw new Error(`A close-out names what revision ${revision} does not have.`);
  return { revision, ...priced, input: resolve(priced.input) };
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
