/** Two revisions of a job beside each other; the last two unless others are asked for. */
import { type ChangeList, changeList } from "../estimating/agreement/changeList.js";
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
  const changes = from && to && changeList(inputOf(from), inputOf(to));
  return { ...(from && { from }), ...(to && { to }), ...(changes && { changes }) };
}
