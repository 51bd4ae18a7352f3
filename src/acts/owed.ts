/** What a job comes to, what was paid on it, and what is still to pay. */
import type { Minor } from "../estimating/input.js";
import { credited, standing } from "../records/payments.js";
import { agreedThen } from "./agreedThen.js";
import type { JobAsItStands } from "./job.js";
import { besideAgreed, owedDeclined } from "./reckoning.js";

export interface Owed {
  /** Of the account, of what is agreed, or of what declining comes to so far; absent while none is there. */
  readonly total?: Minor;
  /** In it, for possible work that proved necessary: as far as it is logged or ticked off. Absent: none, or the job is closed. */
  readonly found?: Minor;
  readonly paid: Minor;
  /** Below 0: to be given back. */
  readonly due?: Minor;
  /** Still to come before work may begin. */
  readonly deposit: Minor;
}

export function owed(job: JobAsItStands): Owed {
  const agreed = job.agreed();
  const bill = job.closeOut ? undefined : job.bill();
  const total =
    job.closeOut?.result.account.totals.total ?? (bill ? bill.totals.total + (besideAgreed(job)?.total ?? 0) : owedDeclined(job));
  const credits = credited(job.payments, job.closeOut?.basis.terms.payments);
  // What an old estimate says was paid counts until payments are on record.
  const before = credits.length === 0 && !job.closeOut ? (agreed?.input.policy?.prepaid ?? 0) : 0;
  const paid = credits.reduce((sum, { amount }) => sum + amount, before);
  const promised = job.closeOut ? 0 : (agreed?.sheet.deposit.amount ?? 0);
  return {
    paid,
    deposit: depositAwaited(promised, paid, begunOn(job)),
    ...(total !== undefined && { total, due: total - paid }),
    ...(bill && bill.found !== 0 && { found: bill.found }),
  };
}

/** Used of what is agreed, and of a later agreement that was taken back. */
export function spentOf(job: JobAsItStands): ReturnType<JobAsItStands["spent"]> {
  const then = besideAgreed(job);
  const { entries = [], done = {} } = (then && agreedThen(job)) ?? {};
  const own = job.entries.filter(({ id }) => entries.includes(id)).reduce((some, entry) => some.without(entry), job);
  const ticks = job.tickOffs.filter(({ item }) => done[item]);
  const spent = ticks.reduce((some, tick) => some.ticked({ ...tick, count: 0 }), own).spent();
  return spent && then ? { total: spent.total + then.total, withoutTax: spent.withoutTax + then.withoutTax } : spent;
}

/** Work began on a deposit that was promised and paid. */
export const depositSettled = (job: JobAsItStands): boolean => owed(job).paid >= (begunOn(job) ?? Number.POSITIVE_INFINITY);

/** What the estimate says was paid before, while no payment of that amount is on record; it counts only until one of any amount is. */
export function paidUnrecorded(job: JobAsItStands): { readonly amount: Minor; readonly counts: boolean } | undefined {
  const amount = job.agreed()?.input.policy?.prepaid ?? 0;
  const payments = standing(job.payments);
  if (amount === 0 || job.closeOut || payments.some((payment) => payment.amount === amount)) return undefined;
  return { amount, counts: payments.length === 0 };
}

/**
 * `promised` for the very set that was agreed to; whatever was paid counts towards it. `begunOn`: the least deposit that was promised, once
 * work is logged; where that was paid, what a later revision adds to it holds no work up, and is owed with the balance.
 */
export const depositAwaited = (promised: Minor, paid: Minor, begunOn?: Minor): Minor =>
  begunOn !== undefined && paid >= begunOn ? 0 : Math.max(0, promised - paid);

/** The least that the answers that stand promised, once work is logged; undefined where none promised any. As SQL: `leastDeposit` in records/jobState. */
function begunOn({ answers, entries }: JobAsItStands): Minor | undefined {
  if (entries.length === 0) return undefined;
  const promised = answers.flatMap(({ id, answer, deposit = 0 }) =>
    answer !== "declined" && deposit > 0 && !answers.some(({ corrects }) => corrects === id) ? [deposit] : [],
  );
  return promised.length > 0 ? Math.min(...promised) : undefined;
}
