/** Two revisions of a job beside each other; the last two unless others are asked for. */
import { type ChangeList, changesBetween } from "../estimating/agreement/changeList.js";
import type { Estimate } from "../records/estimates.js";
import type { JobAsItStands } from "./job.js";

export interface Compared {
  readonly from?: Estimate;
  readonly to?: Estimate;
  /** Absent where there are no two, or they cannot be compared. */
  readonly changes?: ChangeList;
}

export function compared(
  { revisions, inputOf }: JobAsItStands,
  wanted: { readonly from?: number; readonly to?: number } = {},
): Compared {
  const named = (number: number | undefined) => revisions.find(({ revision }) => revision === number);
  const to = named(wanted.to) ?? revisions.at(-1);
  const from = named(wanted.from) ?? revisions.findLast(({ revision }) => revision < (to?.revision ?? 0));
  // By the sheets that are kept: nothing is priced again.
  const priced = (revision?: Estimate) => revision?.sheet && { input: inputOf(revision), sheet: revision.sheet };
  const [before, after] = [priced(from), priced(to)];
  const changes = before && after && changesBetween(before, after);
  return { ...(from && { from }), ...(to && { to }), ...(changes && { changes }) };
}
