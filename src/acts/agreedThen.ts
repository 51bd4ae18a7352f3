/** What was logged or ticked off as agreed before the owner took the agreement back: neither looking, nor let through by an override. */
import { isLooking } from "../estimating/agreement/workLog.js";
import type { AccountTerms } from "../estimating/closeout/account/terms.js";
import type { ThenAgreed } from "../estimating/closeout/jobDone.js";
import { coverage } from "../estimating/closeout/log/covered.js";
import type { EstimateInput, Minor, WorkItem } from "../estimating/input.js";
import { resolve } from "../estimating/resolve.js";
import { type Agreement, agreedTo } from "../records/agreements.js";
import type { Instant } from "../records/database.js";
import type { LogEntryValue } from "../records/workLog.js";
import { partOf, timeOf } from "./asWork.js";
import { foundBy, type JobAsItStands } from "./job.js";

/** Opening and refitting, finding the fault and inspecting; no part is any of it. */
export const looks = (input: EstimateInput, { own, offer, item, partKind, partType, ownPart, parts }: LogEntryValue): boolean =>
  (own ?? offer ?? partKind ?? partType ?? ownPart ?? parts) === undefined && isLooking(input, item);

interface AgreedThen extends Omit<NonNullable<AccountTerms["agreedThen"]>, "charged">, Pick<ThenAgreed, "found" | "done"> {
  readonly agreement: Agreement;
}

/** Undefined where there is none. */
export function agreedThen(job: JobAsItStands): AgreedThen | undefined {
  const input = job.input();
  const last = lastAgreed(job);
  if (!input || !last) return undefined;
  const agreements = job.answers.filter(({ answer }) => answer !== "declined");
  const [covered, { at: until }] = [coveredBy(last), job.answers[last.answers.length]!];
  const agreedBy = (moment: Instant) => agreements.some(({ at }) => at <= moment);
  const offered = coverage(input, resolve(job.inputOf(job.revision(job.current!.id)!)));
  // Parts that are told by what they sold for alone are in no account; the time beside them is.
  const entries = job.entries.filter(({ parts: _, ...entry }) => {
    const time = timeOf(entry);
    if ((time ?? partOf(entry)) === undefined) return false;
    // What was declined last says what looking is.
    if (time && looks(input, entry) && offered.workNot(time.work) === undefined) return false;
    if (entry.overrideId === undefined) return agreedBy(entry.at);
    // A timer counts from its start, whenever it was stopped.
    const began = entry.startedAt ?? entry.at;
    return covered(entry) && agreedBy(began) && began < until;
  });
  const { input: agreed, agreement } = last.agreed()!;
  const ticks = job.tickOffs.filter(({ at, item }) => agreedBy(at) && at <= until && !isLooking(agreed, item));
  // What is unticked since was not done.
  const counts = new Map(ticks.map(({ item, count }) => [item, Math.min(count, job.done[item]!)]));
  const done = Object.fromEntries([...counts].filter(([, count]) => count > 0));
  if (entries.length === 0 && Object.keys(done).length === 0) return undefined;
  const found = foundBy(agreed.items, entries, done);
  return { entries: entries.map(({ id }) => id), upTo: mostOf(last), done, found, agreement };
}

/** On an override since the first answer, and no looking: nobody agreed to it. `then`: what was done as agreed. */
export function notLooking(job: JobAsItStands, then: readonly string[] = []): readonly string[] {
  const [input, first] = [job.input(), job.answers[0]?.at];
  if (!input || first === undefined) return [];
  const since = ({ at, startedAt }: LogEntryValue & { readonly at: Instant }) => (startedAt ?? at) > first;
  return job.entries
    .filter((each) => each.overrideId !== undefined && since(each) && !looks(input, each) && !then.includes(each.id))
    .map(({ id }) => id);
}

/** Whether it was agreed for itself, so that an override let pass only the limit, or when it was logged. */
function coveredBy(job: JobAsItStands): (entry: LogEntryValue) => boolean {
  const agreed = new Set(job.agreed()!.input.items.map(({ id }) => id));
  for (const { id } of job.unagreed()) agreed.delete(id);
  return ({ item, partKind, partType, ownPart }) =>
    item !== undefined && agreed.has(item) && (partKind ?? partType ?? ownPart) === undefined;
}

/** As it stood when something was agreed last; undefined where that stands still, or nothing ever was. */
function lastAgreed(job: JobAsItStands): JobAsItStands | undefined {
  const { answers } = job;
  if (agreedTo(answers)) return undefined;
  const at = answers.findLastIndex((_, index) => agreedTo(answers.slice(0, index)));
  return at === -1 ? undefined : job.asAnswered(answers.slice(0, at));
}

/** The bill, with what was found, that it would have come to as agreed; by its time, the most that was agreed. Tax included. */
function mostOf(job: JobAsItStands): Minor {
  const { amount = 0, ceiling = amount } = job.agreed()!.agreement;
  return job.agreedWork()!.asAgreed ? job.bill()!.totals.total : Math.max(amount, ceiling);
}

/** Logged while an earlier revision stood agreed, and no longer in the newest: the log still names it. As that revision has it. */
export function droppedSince(job: JobAsItStands, { items }: Pick<EstimateInput, "items">): WorkItem[] {
  const logged = new Set([...job.entries, ...job.tickOffs].map(({ item }) => item));
  const known = new Set(items.map(({ id }) => id));
  const agreed = job.answers.filter(({ answer }) => answer !== "declined");
  const all = agreed.flatMap(({ estimateId }) => job.revision(estimateId)?.input.items ?? []);
  // What was agreed last counts.
  return [...new Map(all.map((item) => [item.id, item])).values()].filter(({ id }) => logged.has(id) && !known.has(id));
}
