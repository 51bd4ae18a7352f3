/** What keeps an entry out of the work log: a problem of the entry itself, or work that the owner has not agreed to. */

import { mayLog } from "../estimating/agreement/workLog.js";
import { checkAddition, type LogContext } from "../estimating/closeout/log/checkLog.js";
import type { Override, WorkLog } from "../estimating/closeout/log/workLog.js";
import type { Minor } from "../estimating/input.js";
import type { LogProblem, Problem, Unagreed } from "../estimating/problems.js";
import { asLogged, partOf, timeOf } from "./asWork.js";
import type { Standing } from "./standing.js";
import type { LogEntryValue } from "./workLog.js";

/** May be overridden with a reason and a name. */
export type LimitRefusal =
  | { readonly is: "not agreed"; readonly why: Unagreed["why"] }
  | { readonly is: "part not agreed"; readonly problem: LogProblem }
  /** By how much, with tax or without as the limit is measured. */
  | { readonly is: "above limit"; readonly by: Minor; readonly withTax: boolean }
  /** The account is final; `besides`: what the entry would pass on an open job too. */
  | { readonly is: "job closed"; readonly problem: LogProblem; readonly besides?: Exclude<LimitRefusal, { is: "job closed" }> };

/** Nothing lets these through. Pointers are into the entry. */
export interface EntryRefused {
  readonly is: "refused";
  readonly problems: readonly (Problem | LogProblem)[];
}

export type EntryValue = LogEntryValue & { readonly id: string };
type Known = Pick<Standing, "agreed" | "unagreed" | "log"> & { readonly input: NonNullable<Standing["input"]> };

/** `log` without the entry. An entry of both time and a part is checked as the two that it is. */
export function entryProblems(
  entry: EntryValue,
  { input, agreed }: Known,
  log: WorkLog,
  closedOn: string | undefined,
  override: Override | undefined,
): (Problem | LogProblem)[] {
  const context: LogContext = { current: input, agreed: agreed?.input, ...(closedOn !== undefined && { closedOn }) };
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
  if (here === "work") return `/${entry.offer !== undefined ? "offer" : entry.assembly !== undefined ? "assembly" : "item"}`;
  if (here === "part") return entry.partKind === undefined ? "/partType" : "/partKind";
  return here === "" ? "" : `/${HERE[here] ?? here}`;
}

/** The first thing only the owner, or an override, can let through. */
export function limitRefusal(
  entry: EntryValue,
  known: Known,
  problems: readonly (Problem | LogProblem)[],
): LimitRefusal | undefined {
  const closed = problems.find((problem): problem is LogProblem => problem.name === "job closed");
  const passed = passedLimit(entry, known, problems);
  return closed ? { is: "job closed", problem: closed, ...(passed && { besides: passed }) } : passed;
}

function passedLimit(
  entry: EntryValue,
  { agreed, unagreed, input, log }: Known,
  problems: readonly (Problem | LogProblem)[],
): Exclude<LimitRefusal, { is: "job closed" }> | undefined {
  if (!agreed) return { is: "not agreed", why: "nothing agreed" };
  for (const problem of problems) {
    if (problem.name === "work not agreed") return { is: "not agreed", why: problem.why };
    if (problem.name === "part not agreed") return { is: "part not agreed", problem };
  }
  const verdict = mayLog(input, { ...agreed, unagreed }, log, asLogged(entry, input));
  if (verdict.is === "within") return undefined;
  return verdict.is === "not agreed"
    ? { is: "not agreed", why: verdict.why }
    : { is: "above limit", by: verdict.by, withTax: agreed.limit.withTax };
}

export const isOverridable = ({ name }: Problem | LogProblem): boolean =>
  name === "work not agreed" || name === "part not agreed" || name === "job closed";
