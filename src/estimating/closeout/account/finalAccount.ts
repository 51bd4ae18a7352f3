/** What the owner pays in the end: the fixed price of what was agreed and done, time and parts up to the limit, or what declining was to cost. */
import { agreedLimit, type Limit } from "../../agreement/limit.js";
import type { Revision } from "../../agreement/rowChanges.js";
import { addDays } from "../../day.js";
import type { CurrencyCode, IsoDate, Minor, Minutes } from "../../input.js";
import { fromMilli, toMilli } from "../../money/scales.js";
import type { LogProblem, Problem } from "../../problems.js";
import { behindOf } from "../../resolve.js";
import type { Adjustment, Line, Totals } from "../../sheet.js";
import { addUp } from "../../totals/addUp.js";
import { actualLines } from "../actual/actualLines.js";
import { type Recorded, recorded } from "../actual/partsDone.js";
import { workedIn } from "../actual/untimed.js";
import { amountDone } from "../actual/workDone.js";
import { type Allowed, agreedOf, allowedFor, type Charged, type ChargedRevision, type JobDone } from "../jobDone.js";
import { checkForClosing, withoutRefused } from "../log/checkLog.js";
import { partedBeside, partedLog, withoutThen } from "../log/parted.js";
import type { Override, WorkLog } from "../log/workLog.js";
import { type AgreedThen, thenOf, withAgreedThen } from "./agreedThen.js";
import { declinedLines, promised } from "./declined.js";
import { type PartFitted, type PartTold, partsFitted, partsTold } from "./fitted.js";
import {
  type AccountTerms,
  chargesLooking,
  checkTerms,
  type HandBack,
  type Held,
  holdToLimit,
  nothingAgreed,
  type OldParts,
  type Payment,
} from "./terms.js";

interface HoursBilled {
  readonly labourClass: { readonly id: string; readonly name: string };
  readonly minutes: Minutes;
  readonly ratePerHour: Minor;
  /** Sum of the lines, each rounded by itself. */
  readonly amount: Minor;
}

export interface FinalAccount {
  readonly basis: AccountTerms["basis"];
  readonly on: IsoDate;
  readonly currency: CurrencyCode;
  /** In print order; work and parts that nobody agreed to are not among them. */
  readonly lines: readonly Line[];
  readonly adjustments: readonly Adjustment[];
  readonly held: Pick<Held, "over" | "allowances">;
  readonly limit: Limit;
  /** The record by which `held.over` is billed all the same. */
  readonly above?: Override;
  /** Payments are what is prepaid; `due` below 0 is to be paid back. */
  readonly totals: Totals;
  readonly payments: readonly Payment[];
  readonly hours: readonly HoursBilled[];
  /** Minutes timed on what is agreed, whatever is billed. `untimed`: at the planned time, attended or not, of what was done and not timed. */
  readonly worked: { readonly attended: Minutes; readonly unattended: Minutes; readonly untimed?: Minutes };
  /** How the agreed total became this one. Absent in accounts from before it was told, and where nothing was agreed or done. */
  readonly since?: SinceAgreed;
  /** Of what was declined after all, in whole or in part: agreed work that was done before. */
  readonly agreedThen?: AgreedThen;
  /** As they were logged. */
  readonly parts: readonly PartFitted[];
  /** The same as many as are charged, with what each stands in for; absent in accounts from before it was told. */
  readonly fitted?: readonly PartTold[];
  /** Worth of what was worked and used on an override without being agreed; not billed. */
  readonly notCharged: Minor;
  readonly warranty: { readonly days: number; readonly until: IsoDate };
  readonly oldParts: OldParts;
  readonly handBack?: HandBack;
}

/** Tax included; the amounts of the steps sum to this total less the agreed one. */
interface SinceAgreed {
  readonly agreed: Minor;
  /** Agreed work that was not done, or not all of it: how much was left. */
  readonly notDone: readonly { readonly item: string; readonly count: number }[];
  /** `actual`: time and parts as they really were; `limit`: what is not charged above it; `agreed then`: of an agreement taken back. None is 0. */
  readonly steps: readonly { readonly is: "not done" | "found" | "actual" | "limit" | "agreed then"; readonly amount: Minor }[];
}

type FinalAccountResult =
  | { readonly ok: true; readonly account: FinalAccount }
  | { readonly ok: false; readonly problems: readonly (Problem | LogProblem)[]; readonly partial?: FinalAccount };

/** Pointers of problems are into the log, and into the terms under /terms. */
export function finalAccount(job: JobDone, terms: AccountTerms): FinalAccountResult {
  const agreed = agreedOf(job).input;
  const unfit = checkTerms(terms);
  const checked = checkForClosing(job.log, { current: job.current ?? agreed, agreed });
  const problems = [...withoutThen(checked, job.log, terms.agreedThen?.entries), ...unfit];
  const log = withoutRefused(job.log, problems);
  const allowed = allowedFor({ ...job, log });
  if (!allowed.ok) return { ok: false, problems: [...problems, ...allowed.problems] };
  if (unfit.length > 0) return { ok: false, problems };
  const of = (worked: WorkLog) => recorded({ ...job, rates: {} }, worked, allowed.allowed);
  const { entries } = terms.agreedThen ?? {};
  const [own, then] = nothingAgreed(terms.basis) ? partedLog(log, entries) : partedBeside(agreed, log, entries);
  const [rest, beyond] = partedLog(own, terms.notLooking);
  const bare = made(job, terms, allowed, of(rest), of(workedIn(job, rest, allowed.allowed)));
  const looked = { ...bare, notCharged: bare.notCharged + worthOf(of(beyond)) };
  const { agreedThen } = terms;
  const more = agreedThen && thenOf({ ...job, log }, terms, then, of, totalOf);
  const account = more ? withThen(looked, more, agreedThen, allowed.allowed) : looked;
  return problems.length === 0 ? { ok: true, account } : { ok: false, problems, partial: account };
}

function totalOf(job: JobDone, terms: AccountTerms): Minor | undefined {
  const result = finalAccount(job, terms);
  return (result.ok ? result.account : result.partial)?.totals.total;
}

const worthOf = ({ work, parts }: Recorded): Minor =>
  [...work.map(amountDone), ...parts.map(({ amount }) => amount)].reduce((sum, worth) => sum + worth, 0);

function withThen(
  looked: FinalAccount,
  then: ReturnType<typeof thenOf>,
  terms: NonNullable<AccountTerms["agreedThen"]>,
  { input }: ChargedRevision,
): FinalAccount {
  const account: FinalAccount = { ...looked, ...withAgreedThen(looked, then, terms, input.rateBook.tax) };
  if (!account.agreedThen?.charged) return account;
  const own = workedOn({ ...then, work: then.work.map((work) => ({ ...work, agreed: true })) });
  const worked = {
    ...looked.worked,
    attended: looked.worked.attended + own.attended,
    unattended: looked.worked.unattended + own.unattended,
  };
  const { since, agreedThen } = account;
  const more = since && {
    since: { ...since, steps: [...since.steps, { is: "agreed then" as const, amount: agreedThen.amount }] },
  };
  return { ...account, ...more, worked, hours: hoursOf(account.lines, then.rateBook.labourClasses) };
}

function made(
  job: JobDone,
  terms: AccountTerms,
  { billed, planned, allowed }: Extract<Allowed, { ok: true }>,
  logged: Recorded,
  done: Recorded,
): FinalAccount {
  const { rateBook, currency } = allowed.input;
  const { basis, on, payments, warrantyDays, oldParts, handBack, above } = terms;
  const agreed = agreedOf(job);
  const isLooking = chargesLooking(basis);
  const { lines, adjustments } = isLooking
    ? { lines: declinedLines(done, agreed, terms), adjustments: [] }
    : basis === "fixed price"
      ? billed.sheet
      : actualLines(done.work, done.parts, allowed);
  const limit = isLooking
    ? promised(agreed, basis)
    : (terms.limit ?? agreedLimit(agreed.input, job.found, agreed.sheet) ?? printedLimit(agreed));
  const prepaid = payments.reduce((sum, payment) => sum + payment.amount, 0);
  const bill = holdToLimit(lines, adjustments, rateBook.tax, prepaid, limit, above !== undefined);
  return {
    basis,
    on,
    currency,
    lines,
    adjustments,
    held: { over: bill.over, allowances: bill.allowances },
    limit,
    ...(above && bill.over > 0 && { above }),
    totals: bill.totals,
    payments,
    hours: hoursOf(lines, rateBook.labourClasses),
    worked: workedOn(logged, done),
    ...(!isLooking && { since: sinceAgreed(job, planned, billed, bill, { lines, adjustments }) }),
    parts: partsFitted(logged.parts),
    ...(!isLooking && { fitted: partsTold(basis, (basis === "fixed price" ? logged : done).parts, allowed) }),
    notCharged: [
      ...done.work.filter((work) => !work.agreed || (nothingAgreed(basis) && lines.length === 0)).map(amountDone),
      ...done.parts.filter((part) => !part.agreed || nothingAgreed(basis)).map((part) => part.amount),
    ].reduce((sum, worth) => sum + worth, 0),
    warranty: { days: warrantyDays, until: addDays(on, warrantyDays) },
    oldParts,
    ...(handBack && { handBack }),
  };
}

/** For a revision that a later check would refuse. */
const printedLimit = ({ sheet: { totals, ceiling } }: Pick<Revision, "sheet">): Limit => ({
  agreed: totals.total,
  upTo: Math.max(totals.total, ceiling.amount),
  withTax: true,
  by: "ceiling",
});

const hoursOf = (lines: readonly Line[], classes: readonly { id: string; name: string; ratePerHour: Minor }[]): HoursBilled[] =>
  classes.flatMap(({ id, name, ratePerHour }) => {
    const own = lines.filter(({ labourClass, why }) => labourClass?.id === id && why?.rule !== "fixed price");
    const milli = own.reduce((sum, { minutes = 0 }) => sum + toMilli(minutes), 0);
    const total = own.reduce((sum, line) => sum + line.amount, 0);
    return own.length === 0 ? [] : [{ labourClass: { id, name }, minutes: fromMilli(milli), ratePerHour, amount: total }];
  });

function workedOn(logged: Recorded, done = logged): FinalAccount["worked"] {
  const milliOf = ({ work }: Recorded, wanted: readonly boolean[]) =>
    work
      .filter(({ agreed }) => agreed)
      .flatMap(({ portions }) => portions)
      .reduce((total, { labourClass, milli }) => total + (wanted.includes(labourClass.attended) ? milli : 0), 0);
  const untimed = milliOf(done, [true, false]) - milliOf(logged, [true, false]);
  return {
    attended: fromMilli(milliOf(logged, [true])),
    unattended: fromMilli(milliOf(logged, [false])),
    ...(untimed > 0 && { untimed: fromMilli(untimed) }),
  };
}

function sinceAgreed(
  job: JobDone,
  planned: ChargedRevision,
  billed: Revision,
  { totals }: Held,
  { lines, adjustments }: Pick<Charged, "lines" | "adjustments">,
): SinceAgreed {
  const { input, sheet } = agreedOf(job);
  const totalOf = (of: Pick<Charged, "lines" | "adjustments">) => addUp(of.lines, of.adjustments, input.rateBook.tax, 0).total;
  const reached = [
    sheet.totals.total,
    totalOf(planned.sheet),
    billed.sheet.totals.total,
    totalOf({ lines, adjustments }),
    totals.total,
  ];
  const steps = (["not done", "found", "actual", "limit"] as const).map((is, at) => ({
    is,
    amount: reached[at + 1]! - reached[at]!,
  }));
  return {
    agreed: sheet.totals.total,
    notDone: input.items.flatMap((item) => {
      const { id, count, certainty } = item;
      const left = count - (job.done[id] ?? count);
      const charged = certainty.is === "planned" || (certainty.is === "optional" && certainty.chosen);
      return left > 0 && charged && behindOf(item) === undefined ? [{ item: id, count: left }] : [];
    }),
    steps: steps.filter(({ amount }) => amount !== 0),
  };
}
