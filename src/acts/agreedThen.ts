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
import { mostWorded } from "../wording/agreement.js";
import { wordsIn } from "../wording/tongue.js";
import { partOf, timeOf } from "./asWork.js";
import { foundBy, type JobAsItStands } from "./job.js";

/** Opening and refitting, finding the fault and inspecting; no part is any of it. */
export const looks = (input: EstimateInput, { own, offer, item, partKind, partType, ownPart, parts }: LogEntryValue): boolean =>
  (own ?? offer ?? partKind ?? partType ?? ownPart ?? parts) === undefined && isLooking(input, item);

interface AgreedThen extends Omit<NonNullable<AccountTerms["agreedThen"]>, "charged">, Pick<ThenAgreed, "found" | "done"> {
  readonly agreement: Agreement;
}

/** Undefined where there is none. Where an earlier agreement stands still: what that has not. `asked`: what a refusal would promise. */
export function agreedThen(job: JobAsItStands, asked = false): AgreedThen | undefined {
  const [input, stands, { answers }] = [job.input(), job.agreed(), job];
  const back = answers.filter(({ answer, id }) => answer !== "declined" && answers.some(({ corrects }) => corrects === id));
  if (!input || back.length === 0) return undefined;
  const before = answers.map((_, index) => answers.slice(0, index + 1)).filter((some) => agreedTo(some));
  const last = before.at(-1)!;
  const { at: until } = stands ? answers.at(-1)! : answers[last.length]!;
  const agreements = answers.filter(({ answer }) => answer !== "declined");
  const agreementAt = (moment: Instant) => agreedTo(answers.filter(({ at }) => at <= moment));
  // What stands is agreed now too.
  const agreedBy = (moment: Instant) =>
    stands ? back.some(({ id }) => id === agreementAt(moment)?.id) : agreements.some(({ at }) => at <= moment);
  const offered = coverage(input, stands?.input ?? resolve(job.inputOf(job.revision(job.current!.id)!)));
  // Parts that are told by what they sold for alone are in no account; the time beside them is.
  const running: typeof job.entries = job.timers.map((timer) => ({ ...timer, at: timer.startedAt, workedOn: "" }));
  const entries = [...job.entries, ...running].filter(({ parts: _, ...entry }) => {
    const [time, part] = [timeOf(entry), partOf(entry)];
    if ((time ?? part) === undefined) return false;
    const within = time === undefined || offered.workNot(time.work) === undefined;
    // What was declined last says what looking is.
    if (within && (stands ? part === undefined || offered.counts(part) : time && looks(input, entry))) return false;
    if (entry.overrideId === undefined) return agreedBy(entry.at);
    // A timer counts from its start, whenever it was stopped.
    const began = entry.startedAt ?? entry.at;
    const then = agreementAt(began);
    return then !== undefined && agreedBy(began) && coveredBy(job.asAnswered(answers.filter(({ at }) => at <= began)))(entry);
  });
  const own = stands && chargedOf(stands.input);
  const ticks = job.tickOffs.filter(({ at, item }) => agreedBy(at) && at <= until && !own?.has(item) && !isLooking(input, item));
  // What is unticked since was not done.
  const counts = new Map(ticks.map(({ item, count }) => [item, Math.min(count, job.done[item]!)]));
  const done = Object.fromEntries([...counts].filter(([, count]) => count > 0));
  if (entries.length === 0 && Object.keys(done).length === 0) return undefined;
  // The last that had most of it.
  const worked = [...new Set([...entries.flatMap(({ item }) => item ?? []), ...Object.keys(done)])];
  const had = (some: JobAsItStands["answers"]) => {
    const items = chargedOf(setOf(job, agreedTo(some)!));
    return worked.filter((id) => items.has(id)).length;
  };
  const of = stands ? before.filter((some) => back.some(({ id }) => id === agreedTo(some)!.id)) : before;
  const chosen = of.reduceRight((best, some) => (had(some) > had(best) ? some : best));
  const then = job.asAnswered(chosen);
  const { input: agreed, agreement } = then.agreed()!;
  const found = foundBy(agreed.items, entries, done);
  const promised = stands || asked ? undefined : promisedBy(job, answers.slice(last.length));
  return { entries: entries.map(({ id }) => id), upTo: promised ?? mostOf(then), done, found, agreement };
}

const setOf = (job: JobAsItStands, { estimateId, chosen, struck }: Agreement): EstimateInput => {
  const set = job.priced(estimateId, { chosen, struck });
  return resolve("is" in set ? job.inputOf(job.revision(estimateId)!) : set.input);
};

const chargedOf = ({ items }: Pick<EstimateInput, "items">): ReadonlySet<string> =>
  new Set(items.flatMap(({ id, count, certainty: is }) => (count > 0 && (is.is !== "optional" || is.chosen) ? [id] : [])));

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

/** What the last refusal says, whatever was logged since; one that says nothing of it promised the looking alone. */
const promisedBy = (job: JobAsItStands, refusals: readonly Agreement[]): Minor =>
  refusals
    .map(({ ceiling, wording, estimateId }) => {
      const { paperwork } = job.inputOf(job.revision(estimateId)!);
      return ceiling ?? mostWorded(wording, wordsIn(paperwork?.language).words);
    })
    .findLast((most) => most !== undefined) ?? 0;

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
