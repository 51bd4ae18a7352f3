/** What keeps an entry out of the work log: something wrong with it, or what only the owner, or an override, lets through. */
import { lookingLimit, mayLog as withinLimit, worthOfLooking } from "../estimating/agreement/workLog.js";
import { checkAddition, type LogContext } from "../estimating/closeout/log/checkLog.js";
import { coverage } from "../estimating/closeout/log/covered.js";
import type { Override as Pass, WorkLog } from "../estimating/closeout/log/workLog.js";
import type { Minor } from "../estimating/input.js";
import type { LogProblem, Problem } from "../estimating/problems.js";
import type { Override, OverrideValue } from "../records/overrides.js";
import type { LogEntryValue } from "../records/workLog.js";
import { logRefusalText } from "../wording/agreement.js";
import { problemIn, problemText } from "../wording/problem.js";
import { type Desk, type Refusal, refused } from "./act.js";
import { looks } from "./agreedThen.js";
import { asLogged, partOf, timeOf } from "./asWork.js";
import { engineFaults } from "./fault.js";
import type { JobAsItStands } from "./job.js";
import { declinedIn } from "./reckoning.js";
import type { AnswerName } from "./refusals.js";

export type EntryValue = LogEntryValue & { readonly id: string };

/** Of a job that has no estimate there is nothing to log either. */
export const NO_JOB = refused("not found", { detail: "There is no such job, or it has no estimate yet." });

/** Pointers are into the entry, and one of both time and a part is checked as the two that it is. `log` is without it. */
export function entryProblems(
  job: JobAsItStands,
  entry: EntryValue,
  { log = job.log(), override }: { readonly log?: WorkLog; readonly override?: Pass | undefined } = {},
): (Problem | LogProblem)[] {
  const { closedOn } = job;
  const context: LogContext = {
    current: job.input(entry)!,
    agreed: job.agreed()?.input,
    ...(closedOn !== undefined && { closedOn }),
  };
  const [time, part] = [timeOf(entry, override), partOf(entry, override)];
  const found = [
    ...(time ? checkAddition(log, { time }, context) : []),
    ...(part ? checkAddition(log, { part }, context) : []),
  ].map((problem) => ({ ...problem, pointer: intoEntry(problem.pointer, entry) }));
  return [...new Map(found.map((problem) => [`${problem.name} ${problem.pointer}`, problem])).values()];
}

const HERE: Readonly<Record<string, string>> = {
  "part/kind": "partKind",
  "part/type": "partType",
  count: "partCount",
  "paid/price": "paidPrice",
  "paid/per": "paidPer",
};

/** /time/3/endedAt is /endedAt of the entry, /parts/0/part its kind or type. */
function intoEntry(pointer: string, entry: EntryValue): string {
  const here = pointer.split("/").slice(3).join("/");
  if (here === "work" && entry.own !== undefined) return "/own";
  if (here === "work") return `/${entry.offer !== undefined ? "offer" : entry.assembly !== undefined ? "assembly" : "item"}`;
  if (here === "item" && entry.own !== undefined) return "/own";
  return here === "" ? "" : `/${HERE[here] ?? here}`;
}

/** Nothing lets these through. */
export function refusedFor(
  problems: readonly (Problem | LogProblem)[],
  { tongue }: JobAsItStands,
): { readonly refused: Refusal } {
  const closed = problems.find(({ name }) => name === "job closed");
  return closed
    ? refused("job closed", { detail: problemIn(closed, tongue) })
    : refused("input refused", { errors: engineFaults(problems) });
}

export const isOverridable = ({ name }: Problem | LogProblem): boolean =>
  name === "work not agreed" || name === "part not agreed" || name === "job closed";

/** Of what an override lets pass. */
export interface Passed {
  readonly is: AnswerName;
  readonly detail: string;
  /** As the override's record calls it. */
  readonly was: string;
  /** By how much, with tax or without as the limit is measured. */
  readonly over?: Minor;
}

/** The first thing only the owner, or an override, can let through. `problems` are those of the entry without an override. */
export function passedBy(job: JobAsItStands, entry: EntryValue, problems: readonly (Problem | LogProblem)[]): Passed | undefined {
  const open = passedOpen(job, entry, problems);
  const closed = problems.find(({ name }) => name === "job closed");
  if (!closed) return open;
  const detail = [problemIn(closed, job.tongue), ...(open ? [open.detail] : [])].join(" ");
  // What the entry would pass on an open job too is told beside it.
  return { ...open, is: "job closed", detail, was: ["job closed", ...(open ? [open.was] : [])].join(", ") };
}

function passedOpen(job: JobAsItStands, entry: EntryValue, problems: readonly (Problem | LogProblem)[]): Passed | undefined {
  const agreed = job.agreed();
  if (!agreed) return mayLook(job, entry) ? undefined : unagreedWork(job, "nothing agreed");
  for (const problem of problems) {
    if (problem.name === "work not agreed") return unagreedWork(job, problem.why);
    if (problem.name === "part not agreed") return { is: "part unagreed", was: problem.name, detail: problemText(problem) };
  }
  const [input, limit] = [job.input(entry)!, job.limit(entry)!];
  const work = job.agreedWork(entry)!;
  // Slow hours make no agreed price dearer; only work that is found by this entry may. What was found before is not held against it.
  const over = work.asAgreed ? { over: Math.max(0, job.bill(entry)!.over - job.bill()!.over) } : {};
  const added = asLogged(entry, input, coverage(input, agreed.input));
  const verdict = withinLimit(input, { ...work, ...over, limit, unagreed: job.unagreed() }, job.logged(), added, job.done);
  if (verdict.is === "within") return undefined;
  if (verdict.is === "not agreed") return unagreedWork(job, verdict.why);
  return {
    is: "limit passed",
    was: "above limit",
    over: verdict.by,
    detail: logRefusalText(verdict, limit.withTax, job.tongue)!,
  };
}

/** Before an answer: time of looking, as far as the intake receipt goes; after a refusal only what closes the unit up again. */
export function mayLook(job: JobAsItStands, entry: EntryValue): boolean {
  const input = job.input(entry);
  const limit = input ? lookingLimit(input) : 0;
  if (!input || limit === 0 || job.agreed()) return false;
  if (!looks(input, entry)) return false;
  // What is above the promise is not charged; the unit has to be closed up all the same.
  if (declinedIn(job)) return entry.item === undefined;
  const log = [...job.entries.filter((each) => looks(input, each)), entry].map((each) => asLogged(each, input));
  return worthOfLooking(input, log) <= limit;
}

const DECLINED =
  "Not agreed: the owner declined, so nothing but opening and refitting is logged. Record an override with your name and the reason, or close the job.";

export const unagreedWork = (job: JobAsItStands, why: Extract<LogProblem, { name: "work not agreed" }>["why"]): Passed => ({
  is: "work unagreed",
  was: why,
  detail:
    why === "nothing agreed" && declinedIn(job)
      ? DECLINED
      : logRefusalText({ is: "not agreed", item: "", why }, true, job.tongue)!,
});

/** Put on record only where it is needed. */
export const overrideOf = (desk: Desk, job: JobAsItStands, { by, reason }: OverrideValue, { was, over }: Passed): Override => ({
  ...{ id: desk.newId(), jobId: job.id, at: desk.at, of: "work log", by, reason, refusal: was },
  ...(over !== undefined && { over }),
});
