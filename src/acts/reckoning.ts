import { itemsOf } from "../estimating/agreement/choices.js";
import { keepsPromises } from "../estimating/agreement/promises.js";
import { isLooking } from "../estimating/agreement/workLog.js";
import { promised } from "../estimating/closeout/account/declined.js";
import { type FinalAccount, finalAccount } from "../estimating/closeout/account/finalAccount.js";
import { marginOf, plannedMargin } from "../estimating/closeout/account/margin.js";
import { type AccountTerms, nothingAgreed, usualBasis } from "../estimating/closeout/account/terms.js";
import { agreedOf, foundByLog, type JobDone, type NumberedRevision } from "../estimating/closeout/jobDone.js";
import { partedBeside } from "../estimating/closeout/log/parted.js";
import { type CloseOut, closeOut } from "../estimating/closeout/variance/closeOut.js";
import { estimate } from "../estimating/estimate.js";
import type { EstimateInput, Minor } from "../estimating/input.js";
import type { LogProblem, Problem } from "../estimating/problems.js";
import { resolve } from "../estimating/resolve.js";
import type { Totals } from "../estimating/sheet.js";
import type { Agreement } from "../records/agreements.js";
import type { CloseOutBasis, CloseOutResult, Step } from "../records/closeOuts.js";
import type { Issue } from "../records/issues.js";
import { agreedThen, droppedSince, notLooking } from "./agreedThen.js";
import type { JobAsItStands } from "./job.js";

export interface ClosingWanted {
  readonly terms: AccountTerms;
  /** Possible work that proved necessary, beyond what the log tells; ids of its groups on the sheet. */
  readonly found: readonly string[];
  /** By work item, in place of what was ticked off. */
  readonly done?: Readonly<Record<string, number>> | undefined;
  readonly untimed?: CloseOutBasis["untimed"] | undefined;
  readonly unlogged?: readonly string[] | undefined;
  readonly costs?: CloseOutBasis["costs"] | undefined;
  /** Whether work of a later agreement that was taken back is; absent: yes. */
  readonly charged?: boolean | undefined;
}

export interface ToClose {
  readonly basis: CloseOutBasis;
  readonly done: JobDone;
}

/** Undefined while nothing is agreed. */
export function toClose(job: JobAsItStands, { terms, costs, charged = true, ...wanted }: ClosingWanted): ToClose | undefined {
  const agreed = job.agreed();
  const agreement = agreed?.agreement;
  const [quoted] = job.issues;
  if (!agreed || !agreement || !quoted) return undefined;
  const answered = job.issues
    .filter(({ revision }) => revision <= agreement.revision)
    .flatMap(({ id }) => job.answerTo(id) ?? [])
    .filter(({ answer }) => answer !== "declined");
  const steps: [Step, ...Step[]] = [
    { estimateId: quoted.id, revision: quoted.revision, contentHash: quoted.contentHash },
    ...answered.map(stepOf),
  ];
  const { id, rateBookId, rateBookVersion, input } = job.latest!;
  const log = job.log();
  const then = agreedThen(job);
  const gone = then ? droppedSince(job, input) : [];
  const current = { rateBookId, rateBookVersion, input: { ...input, items: [...input.items, ...gone] } };
  const before: CloseOutBasis = {
    steps,
    ...{ allowedTime: true, foundParts: true },
    found: [],
    done: wanted.done ?? job.done,
    log,
    ...(wanted.untimed && { untimed: wanted.untimed, atPrice: true }),
    ...((wanted.untimed ?? wanted.unlogged) && { linePrices: true }),
    ...(wanted.unlogged && { unlogged: wanted.unlogged }),
    ...(!keepsPromises(agreed.input.rateBook) && { promised: true }),
    ...(id !== agreement.estimateId && { current }),
    ...termsAndThen(then, terms, charged),
    ...(costs && { costs, hoursKnown: true }),
  };
  const done = jobDone(job, before);
  const { input: worked } = agreedOf(done);
  // What was only ticked off may still be said not to be done.
  const ticked = job.found().filter((group) => itemsOf(worked, [group]).some((item) => wanted.done?.[item.id] !== 0));
  const found = [...new Set([...foundByLog(worked, log), ...ticked, ...wanted.found])].sort();
  return { basis: { ...before, found }, done: { ...done, found } };
}

/** With what was done as agreed before that was taken back. */
const termsAndThen = (then: ReturnType<typeof agreedThen>, terms: AccountTerms, charged: boolean) => ({
  terms: { ...terms, ...(then && { agreedThen: { entries: then.entries, upTo: then.upTo, charged } }) },
  ...(then && { thenAgreed: { step: stepOf(then.agreement), found: then.found, done: then.done, kept: true } }),
});

const stepOf = ({ estimateId, revision, contentHash, chosen, struck }: Agreement): Step => ({
  ...{ estimateId, revision, contentHash, set: { chosen, struck } },
});

/** The revision that was declined with nothing agreed to, and the answer that says so. */
export function declinedIn(job: JobAsItStands): { readonly issue: Issue; readonly answer: Agreement } | undefined {
  const issue = job.current;
  const answer = issue && job.answerTo(issue.id);
  return issue && answer?.answer === "declined" && !job.agreed() ? { issue, answer } : undefined;
}

/** The most that declining it was to cost. */
export function promisedIn(job: JobAsItStands, { id }: Pick<Issue, "id">): Minor {
  const revision = job.revision(id)!;
  return promised({ input: job.inputOf(revision), sheet: revision.sheet! }).upTo;
}

/** Nothing was issued, so nothing can be declined: the owner takes the unit back all the same. */
export const neverIssued = ({ issues }: Pick<JobAsItStands, "issues">): boolean => issues.length === 0;

/** By what is there of an estimate (`bareOf`): the looking that was logged, held to what the receipt authorised. */
export function toCloseTakenBack(
  job: JobAsItStands,
  current: NonNullable<CloseOutBasis["current"]>,
  { terms, costs }: Pick<CloseOutBasis, "terms" | "costs">,
): ToClose {
  const basis: CloseOutBasis = { steps: [], found: [], done: {}, log: job.log(), current, terms, ...(costs && { costs }) };
  return { basis, done: jobDone(job, basis) };
}

/** Undefined where the job is not declined. */
export function toCloseDeclined(
  job: JobAsItStands,
  { terms, costs, charged }: Pick<CloseOutBasis, "terms" | "costs"> & { readonly charged: boolean },
): ToClose | undefined {
  const issue = declinedIn(job)?.issue;
  if (!issue) return undefined;
  const { id, rateBookId, rateBookVersion, input } = job.latest!;
  const gone = droppedSince(job, input);
  const then = agreedThen(job);
  const unbilled = notLooking(job, then?.entries);
  const current = { rateBookId, rateBookVersion, input: { ...input, items: [...input.items, ...gone] } };
  const basis: CloseOutBasis = {
    steps: [{ estimateId: issue.id, revision: issue.revision, contentHash: issue.contentHash }],
    ...{ found: [], done: {}, log: job.log() },
    ...termsAndThen(then, { ...terms, ...(unbilled.length > 0 && { notLooking: unbilled }) }, charged),
    ...((id !== issue.id || gone.length > 0) && { current }),
    ...(costs && { costs, hoursKnown: true }),
  };
  return { basis, done: jobDone(job, basis) };
}

/** What a declined job comes to as its log stands now. */
export const owedDeclined = (job: JobAsItStands): Minor | undefined => accountDeclined(job)?.totals.total;

export function accountDeclined(job: JobAsItStands): FinalAccount | undefined {
  const ready = toCloseDeclined(job, { terms: { ...UNTYPED, on: job.job.arrivedOn }, charged: true });
  const billed = ready && finalAccount(ready.done, ready.basis.terms);
  return billed?.ok ? billed.account : billed?.partial;
}

/** What work of a later agreement that was taken back comes to beside the one that stands; undefined where there is none. */
export function besideAgreed(job: JobAsItStands): Pick<Totals, "total" | "withoutTax"> | undefined {
  const set = job.agreed();
  if (!set || job.closeOut || !agreedThen(job)) return undefined;
  const totals = [true, false].map((charged) => {
    const terms = { ...UNTYPED, basis: usualBasis(set.input), on: job.job.arrivedOn };
    const { basis, done } = toClose(job, { terms, found: [], charged })!;
    const billed = finalAccount(done, basis.terms);
    return (billed.ok ? billed.account : billed.partial)?.totals ?? { total: 0, withoutTax: 0 };
  });
  const [all, rest] = totals as [Totals, Totals];
  return { total: all.total - rest.total, withoutTax: all.withoutTax - rest.withoutTax };
}

const UNTYPED = { basis: "declined", payments: [], warrantyDays: 0, oldParts: { is: "returned" } } as const;

/** `basis` of this very job. Throws when a revision it rests on is gone: they are never deleted. */
export function jobDone(job: JobAsItStands, basis: CloseOutBasis): JobDone {
  const { steps, current, terms: _, costs: __, thenAgreed: then, ...given } = basis;
  const { log } = given;
  const [first, ...rest] = steps.length > 0 ? steps.map((step) => revisionOf(job, step)) : [lookedAt(job.inputOf(current!))];
  const worked = current ? job.inputOf(current) : log.own && (rest.at(-1) ?? first!).input;
  const input = worked && resolve({ ...worked, items: [...worked.items, ...(log.own ?? [])] });
  return {
    ...given,
    revisions: [first!, ...rest],
    ...(input && { current: input }),
    ...(then && { thenAgreed: { ...then, revision: revisionOf(job, then.step) } }),
  };
}

/** A revision that never was, of the looking alone. */
function lookedAt(input: EstimateInput): NumberedRevision {
  const looked = resolve({ ...input, items: input.items.filter(({ id }) => isLooking(input, id)) });
  const outcome = estimate(looked);
  if (!outcome.ok) throw new Error("What a unit was looked at by has problems.");
  return { revision: 0, input: looked, sheet: outcome.sheet };
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
  const billed = finalAccount(job, terms);
  if (nothingAgreed(terms.basis)) {
    if (!billed.ok) return { ok: false, problems: billed.problems, partial: { account: billed.partial } };
    return { ok: true, result: { account: billed.account, ...(costs && { margin: marginOf(job, billed.account, costs) }) } };
  }
  const compared = closeOut(job, terms.agreedThen?.entries);
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
  const [, { time, parts }] = partedBeside(agreedOf(job).input, job.log, terms.agreedThen?.entries);
  const worked = { time: [...compared.worked.time, ...time], parts: [...compared.worked.parts, ...parts] };
  return {
    ok: true,
    result: {
      closeOut: compared.closeOut,
      account,
      ...(costs && {
        margin: marginOf(job, account, costs, worked),
        planned: plannedMargin(agreedOf(job).sheet, costs, job.hoursKnown),
      }),
    },
  };
}
