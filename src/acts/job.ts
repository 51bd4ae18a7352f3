/**
 * The job as it stands: all an act or a page about it needs, read once (`jobRows`), and what follows from it, worked out when asked and
 * then kept. `const job = await jobAsItStands(db, id)`, then `job.latest`, `job.agreed()`, `job.limit()`, `job.log()`; writes go on the
 * trail after `job.head`. It is one moment: an act that is decided again reads anew.
 */

import { type AgreedSet, type PricedSet, pricedSet, type UnknownInSet } from "../estimating/agreement/choices.js";
import { agreedLimit, type Limit } from "../estimating/agreement/limit.js";
import { type AgreedWork, type LoggedWork, logged, unagreed } from "../estimating/agreement/workLog.js";
import { type Bill, billOf } from "../estimating/closeout/account/bill.js";
import { usualBasis } from "../estimating/closeout/account/terms.js";
import { coverage } from "../estimating/closeout/log/covered.js";
import type { Override as Pass, WorkLog } from "../estimating/closeout/log/workLog.js";
import { estimate as compute } from "../estimating/estimate.js";
import type { EstimateInput, IsoDate, WorkItem } from "../estimating/input.js";
import type { Problem, Unagreed } from "../estimating/problems.js";
import { resolve } from "../estimating/resolve.js";
import type { Totals } from "../estimating/sheet.js";
import { type Agreement, agreedTo, standingAnswer } from "../records/agreements.js";
import { type CloseOutRecord, standingOf } from "../records/closeOuts.js";
import type { Database } from "../records/database.js";
import type { Estimate, EstimateValue } from "../records/estimates.js";
import type { Issue } from "../records/issues.js";
import { type JobNamed, type JobRows, jobRows } from "../records/jobRows.js";
import type { Timer } from "../records/timers.js";
import type { LogEntry, LogEntryValue } from "../records/workLog.js";
import type { Tongue } from "../wording/tongue.js";
import { asLogged, ownWorkOf, partOf, timeOf } from "./asWork.js";
import { reckoned } from "./reckoned.js";
import { today } from "./today.js";

export interface Agreed extends PricedSet {
  readonly agreement: Agreement;
}

export interface JobAsItStands extends JobRows {
  readonly id: string;
  /** Of its pages. */
  readonly tongue: Tongue;
  readonly latest?: Estimate;
  /** The newest revision, while it is not issued. */
  readonly draft?: Estimate;
  /** The newest issued revision; those before it are superseded. */
  readonly current?: Issue;
  /** Entries of the log that count. */
  readonly entries: readonly LogEntry[];
  /** As it would stand without one of them. */
  readonly without: (entry: LogEntry) => JobAsItStands;
  /** As it would stand with this tick. */
  readonly ticked: (tick: JobRows["tickOffs"][number]) => JobAsItStands;
  /** As it would stand by these answers, oldest first. */
  readonly asAnswered: (answers: JobRows["answers"]) => JobAsItStands;
  /** Those that run on this job. */
  readonly timers: JobRows["everyTimer"];
  /** The one that stands. */
  readonly closeOut?: CloseOutRecord;
  /** The day it was first closed. */
  readonly closedOn?: IsoDate;
  /** Counts ticked off, by work item; one that was never ticked off is absent. */
  readonly done: Readonly<Record<string, number>>;
  readonly revision: (id: string) => Estimate | undefined;
  readonly issueOf: (id: string) => Issue | undefined;
  /** The whole input as it was kept, rate book included. */
  readonly inputOf: (estimate: Pick<EstimateValue, "rateBookId" | "rateBookVersion" | "input">) => EstimateInput;
  /** What keeps a draft from having a sheet. */
  readonly problemsOf: (draft: Estimate) => readonly Problem[];
  /** The answer to a revision that no other record corrects. */
  readonly answerTo: (estimateId: string) => Agreement | undefined;
  /** An issued revision as it was, or would be, answered. */
  readonly priced: (estimateId: string, set: AgreedSet) => PricedSet | UnknownInSet;
  /** What the shop may work by; undefined while nothing is agreed. `before`: by the answers to earlier revisions alone. */
  readonly agreed: (before?: number) => Agreed | undefined;
  /** The same, with own words and services as they were said: what a next revision goes on from. */
  readonly agreedAsSaid: (before?: number) => Agreed | undefined;
  /**
   * The newest revision, issued or not, with work that was agreed and dropped since, and work in own words that was logged, or is about
   * to be (`entry`); undefined without an estimate.
   */
  readonly input: (entry?: LogEntryValue) => EstimateInput | undefined;
  readonly unagreed: () => readonly Unagreed[];
  /** Work that the first issued revision did not have: item -> the revision it came with. */
  readonly foundIn: () => ReadonlyMap<string, number>;
  /** Possible work that proved necessary so far, logged or ticked off: ids of its groups on the agreed sheet; `entry`: and by work about to be logged. */
  readonly found: (entry?: Pick<LoggedWork, "item">) => readonly string[];
  /** What is agreed comes to with what was found so far, at the prices promised and held to the limit, as a final account charges it. */
  readonly bill: (entry?: Pick<LoggedWork, "item">) => Bill | undefined;
  /** The same as work, by which the log is reckoned. */
  readonly agreedWork: (entry?: Pick<LoggedWork, "item">) => AgreedWork | undefined;
  /** How far work may go, with the possible work that was found necessary so far; `entry`: and by work about to be logged. */
  readonly limit: (entry?: Pick<LoggedWork, "item">) => Limit | undefined;
  readonly spent: () => Pick<Totals, "total" | "withoutTax"> | undefined;
  readonly logged: () => readonly LoggedWork[];
  /**
   * The log as the engine reads it, oldest first, timers that still run last. An entry of time and of a part has the same id in both
   * lists. Entries that tell only what parts sold for name no pieces, so they are not in it.
   */
  readonly log: (withoutTimer?: string) => WorkLog;
}

/** Undefined where there is no such job. */
export async function jobAsItStands(db: Database, named: JobNamed): Promise<JobAsItStands | undefined> {
  const rows = await jobRows(db, named);
  return rows && standing(rows);
}

/** Each job once, for one request or one try. */
export const jobsRead = (db: Database) =>
  keptBy(
    (named: JobNamed) => JSON.stringify(named),
    (named) => jobAsItStands(db, named),
  );

function standing(rows: JobRows): JobAsItStands {
  const { job, settings, revisions, issues, answers, closeOuts, everyEntry, everyTimer, tickOffs } = rows;
  const latest = revisions.at(-1);
  const current = issues.at(-1);
  const closeOut = standingOf(closeOuts);
  const closedOn = closeOuts.find(({ corrects }) => corrects === undefined)?.closedOn;
  const entries = everyEntry.filter(({ withdrawal }) => !withdrawal);
  const timers = everyTimer.filter(({ jobId }) => jobId === job.id);
  const books = new Map(rows.rateBooks.map((book) => [`${book.id} ${book.version}`, book]));

  const revision = (id: string) => revisions.find((each) => each.id === id);
  const inputOf: JobAsItStands["inputOf"] = ({ rateBookId, rateBookVersion, input }) => {
    const rateBook = books.get(`${rateBookId} ${rateBookVersion}`);
    if (!rateBook) throw new Error(`Rate book ${rateBookId} version ${rateBookVersion} is gone.`);
    return { ...input, rateBook };
  };
  const priced = keptBy(
    (estimateId: string, { chosen, struck }: AgreedSet) => JSON.stringify([estimateId, chosen, struck]),
    (estimateId, set) => {
      const issued = revision(estimateId);
      if (!issued?.sheet) throw new Error(`Estimate ${estimateId}, which was answered, is gone.`);
      return pricedSet(inputOf(issued), set, issued.sheet, reckoned);
    },
  );
  const agreedAsSaid = (before?: number): Agreed | undefined => {
    const agreement = agreedTo(answers, before);
    const set = agreement && priced(agreement.estimateId, agreement);
    if (!agreement || !set) return undefined;
    if ("is" in set) throw new Error(`Agreement ${agreement.id} names what its revision does not have.`);
    return { ...set, agreement };
  };
  // At the bench and at the close, what was said in own words or sold as a service is work like any other.
  const agreed = (before?: number): Agreed | undefined => {
    const set = agreedAsSaid(before);
    return set && { ...set, input: resolve(set.input) };
  };
  const inputWith = keptBy(
    (entry?: LogEntryValue) => JSON.stringify(entry?.own === undefined ? null : entry),
    (entry) => {
      const more = [...(agreedAsSaid()?.input.items ?? []), ...ownWorkOf([...entries, ...(entry ? [entry] : [])])];
      return latest && resolve(withItemsOf(inputOf(latest), more));
    },
  );
  const input = (entry?: LogEntryValue) => inputWith(entry);
  const limitFor = keptBy(
    (found: readonly string[]) => found.join("\n"),
    (found) => {
      const set = agreed();
      const limit = set && agreedLimit(set.input, found, set.sheet);
      if (set && !limit) throw new Error(`What agreement ${set.agreement.id} covers has problems.`);
      return limit;
    },
  );
  const done = Object.fromEntries(tickOffs.map(({ item, count }) => [item, count]));
  const found: JobAsItStands["found"] = (entry) =>
    foundBy(agreed()?.input.items ?? [], entry ? [...entries, entry] : entries, done);
  const billFor = keptBy(
    (groups: readonly string[]) => groups.join("\n"),
    (groups) => {
      const set = agreed();
      const log = () => engineLog(rows, entries, timers, undefined);
      return set && billOf({ ...set, revision: set.agreement.revision }, groups, log, limitFor(groups)!);
    },
  );
  const agreedWork: JobAsItStands["agreedWork"] = (entry) => {
    const bill = billFor(found(entry));
    return bill && { ...bill.work, asAgreed: usualBasis(bill.work.input) === "fixed price" };
  };
  const loggedWork = once(() => {
    const known = input();
    const covered = known && coverage(known, agreed()?.input);
    return known ? entries.map((entry) => asLogged(entry, known, covered)) : [];
  });

  return {
    ...rows,
    id: job.id,
    tongue: { locale: settings.locale, currency: latest?.input.currency ?? settings.currency },
    entries,
    without: ({ id }) => standing({ ...rows, everyEntry: everyEntry.filter((entry) => entry.id !== id) }),
    ticked: (tick) => standing({ ...rows, tickOffs: [...tickOffs, tick] }),
    asAnswered: (given) => standing({ ...rows, answers: given }),
    timers,
    ...(latest && { latest }),
    ...(latest && !latest.issuedAt && { draft: latest }),
    ...(current && { current }),
    ...(closeOut && { closeOut }),
    ...(closedOn !== undefined && { closedOn }),
    done,
    revision,
    inputOf,
    priced,
    agreed,
    agreedAsSaid,
    input,
    issueOf: (id) => issues.find((each) => each.id === id),
    answerTo: (estimateId) => standingAnswer(answers, estimateId),
    problemsOf: keptBy(
      ({ id }: Estimate) => id,
      (draft) => {
        const outcome = compute(inputOf(draft));
        return outcome.ok ? [] : outcome.problems;
      },
    ),
    unagreed: once(() => {
      const known = input();
      const set = agreed();
      return known ? unagreed(known, set?.input, set?.agreement.struck) : [];
    }),
    foundIn: once(() => {
      const [first, ...later] = revisions.filter(({ issuedAt }, at) => issuedAt !== undefined || at === revisions.length - 1);
      const known = new Set(first?.input.items.map(({ id }) => id));
      const since = new Map<string, number>();
      for (const { revision, input } of later)
        for (const { id } of input.items) if (!known.has(id) && !since.has(id)) since.set(id, revision);
      return since;
    }),
    found,
    bill: (entry) => billFor(found(entry)),
    limit: (entry) => limitFor(found(entry)),
    spent: once(() => {
      const [work, known] = [agreedWork(), input()];
      return work && known && logged(known, work, loggedWork(), done);
    }),
    agreedWork,
    logged: loggedWork,
    log: (withoutTimer) => engineLog(rows, entries, timers, withoutTimer),
  };
}

const RECEIPT = "Looked into before an answer, as the intake receipt allows.";

function engineLog(
  { overrides, answers, settings }: JobRows,
  entries: readonly LogEntry[],
  timers: readonly Timer[],
  withoutTimer: string | undefined,
): WorkLog {
  const passes = new Map(overrides.map(({ id, by, reason }): [string, Pass] => [id, { by, reason }]));
  const beforeAnAnswer = ({ at }: LogEntry) => !answers.some((each) => each.answer !== "declined" && each.at <= at);
  // What was logged with nothing agreed and no override was looking, on the owner's word at the counter.
  const pass = (entry: LogEntry): Pass | undefined => {
    if (entry.overrideId !== undefined) return passes.get(entry.overrideId);
    return beforeAnAnswer(entry) ? { by: entry.person, reason: RECEIPT } : undefined;
  };
  const own = ownWorkOf(entries);
  return {
    ...(own.length > 0 && { own }),
    time: [
      ...entries.flatMap((entry) => timeOf(entry, pass(entry)) ?? []),
      ...timers
        .filter(({ id }) => id !== withoutTimer)
        .flatMap((timer) => timeOf({ ...timer, workedOn: today(new Date(timer.startedAt), settings.timeZone) }) ?? []),
    ],
    parts: entries.flatMap((entry) => partOf(entry, pass(entry)) ?? []),
  };
}

/** Possible work that was logged or ticked off proved necessary: ids of its groups on the sheet. */
export function foundBy(
  items: readonly WorkItem[],
  log: readonly Pick<LoggedWork, "item">[],
  done: JobAsItStands["done"],
): string[] {
  const worked = new Set([...log.map(({ item }) => item), ...Object.keys(done).filter((id) => done[id]! > 0)]);
  const groups = items.flatMap(({ id, certainty }) =>
    certainty.is === "if found" && worked.has(id) ? [certainty.group ?? id] : [],
  );
  return [...new Set(groups)];
}

/** Work that the newest revision has not, agreed and dropped or logged beside the list, is still known. */
function withItemsOf(input: EstimateInput, more: readonly WorkItem[]): EstimateInput {
  const known = new Set(input.items.map(({ id }) => id));
  return { ...input, items: [...input.items, ...more.filter(({ id }) => !known.has(id))] };
}

function once<T>(work: () => T): () => T {
  let kept: { readonly value: T } | undefined;
  return () => {
    kept ??= { value: work() };
    return kept.value;
  };
}

export function keptBy<Args extends readonly unknown[], T>(keyOf: (...args: Args) => string, work: (...args: Args) => T) {
  const kept = new Map<string, T>();
  return (...args: Args): T => {
    const key = keyOf(...args);
    if (!kept.has(key)) kept.set(key, work(...args));
    return kept.get(key)!;
  };
}
