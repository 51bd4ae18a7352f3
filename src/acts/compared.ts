/** A revision held against what it would take the place of: what the owner has agreed to, or the revision before it as it was issued. */

import { type ChangeList, changesBetween } from "../estimating/agreement/changeList.js";
import { afterAnswer } from "../estimating/agreement/choices.js";
import type { Revision } from "../estimating/agreement/rowChanges.js";
import { estimate } from "../estimating/estimate.js";
import type { Estimate } from "../records/estimates.js";
import type { JobAsItStands } from "./job.js";

interface Compared {
  readonly from?: Estimate;
  readonly to?: Estimate;
  /** Absent where there are no two, or they cannot be compared. */
  readonly changes?: ChangeList;
}

/** Without `from`: what was agreed before `to`, or the revision before it. */
export function compared(job: JobAsItStands, wanted: { readonly from?: number; readonly to?: number } = {}): Compared {
  const { revisions, inputOf } = job;
  const named = (number: number | undefined) => revisions.find(({ revision }) => revision === number);
  const to = named(wanted.to) ?? revisions.at(-1);
  const from = named(wanted.from) ?? (to && replacedBy(job, to.revision));
  // By the sheets that are kept: nothing that was issued is priced again.
  const before = from && asItStands(job, from);
  const after = to?.sheet && { input: inputOf(to), sheet: to.sheet };
  const changes = before && after && changesBetween(before, after);
  return { ...(from && { from }), ...(to && { to }), ...(changes && { changes }) };
}

/** What the next revision, of this number, is held against; `issued`: where nothing is agreed, the last that went out. */
export function heldAgainst(job: JobAsItStands, revision: number): Revision | undefined {
  const issued = job.revisions.filter((each) => each.issuedAt !== undefined && each.revision < revision);
  const from = replacedBy({ ...job, revisions: issued }, revision);
  return from && asItStands(job, from);
}

function replacedBy(job: JobAsItStands, revision: number): Estimate | undefined {
  const agreed = job.agreed(revision)?.agreement.estimateId;
  return job.revisions.findLast((each) => (agreed === undefined ? each.revision < revision : each.id === agreed));
}

/** Work the owner left out is still there to be chosen, as it is in the revision that follows. */
function asItStands(job: JobAsItStands, of: Estimate): Revision | undefined {
  const input = job.inputOf(of);
  const answer = job.answerTo(of.id);
  const issued = of.sheet && { input, sheet: of.sheet };
  if (!answer || answer.answer === "declined") return issued;
  const set = job.priced(of.id, answer);
  if ("is" in set) return issued;
  if (answer.struck.length === 0) return { ...set, agreed: true };
  const open = { ...input, items: afterAnswer(input.items, { ...answer, declined: false }) };
  const outcome = estimate(open);
  const same = outcome.ok && outcome.sheet.totals.total === set.sheet.totals.total;
  return same ? { input: open, sheet: outcome.sheet, agreed: true } : { ...set, agreed: true };
}
