/** Refusals to pass what the owner agreed to, and of entries that cannot be right, as problems. */

import type { AnswerName } from "../acts/refusals.js";
import type { EntryRefused, LimitRefusal } from "../records/logRefusal.js";
import type { WithdrawOutcome } from "../records/withdrawEntry.js";
import { logRefusalText } from "../wording/agreement.js";
import { problemText } from "../wording/problem.js";
import type { Tongue } from "../wording/tongue.js";
import type { RefuseWith } from "./problems/refuse.js";

/** What to say, and under which name. */
export function limitRefused(
  refusal: LimitRefusal,
  tongue: Tongue,
): readonly [name: AnswerName, said: { readonly detail: string }] {
  if (refusal.is === "not agreed") {
    const said = logRefusalText({ is: "not agreed", item: "", why: refusal.why }, true, tongue);
    return ["work unagreed", { detail: said! }];
  }
  if (refusal.is === "part not agreed") return ["part unagreed", { detail: problemText(refusal.problem) }];
  if (refusal.is === "job closed") {
    const besides = refusal.besides ? ` ${limitRefused(refusal.besides, tongue)[1].detail}` : "";
    return ["job closed", { detail: `${problemText(refusal.problem)}${besides}` }];
  }
  const amount = { total: 0, withoutTax: 0 };
  const said = logRefusalText({ is: "above limit", amount, by: refusal.by }, refusal.withTax, tongue);
  return ["limit passed", { detail: said! }];
}

/** An entry that no override lets in. */
export function entryRefused({ problems }: EntryRefused): readonly [name: AnswerName, said: RefuseWith] {
  const errors = problems.map((problem) => ({ pointer: problem.pointer, name: problem.name, detail: problemText(problem) }));
  const closed = errors.find(({ name }) => name === "job closed");
  return closed ? ["job closed", { detail: closed.detail, errors }] : ["input refused", { errors }];
}

export function notWithdrawn(
  outcome: Exclude<WithdrawOutcome, { is: "withdrawn" }>,
): readonly [name: AnswerName, said: { readonly detail: string }] {
  if (outcome.is === "missing") return ["not found", { detail: "There is no such job." }];
  if (outcome.is === "entry unknown")
    return ["log entry unknown", { detail: "The work log of this job has no such entry; open the log again and choose one." }];
  const { by, reason } = outcome.record;
  return ["entry withdrawn already", { detail: `${by} withdrew this entry before: ${reason}` }];
}
