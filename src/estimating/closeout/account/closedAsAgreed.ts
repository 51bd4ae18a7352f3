/** An agreement that was taken back, closed as agreed with the same of it done: never is more charged for that than this would come to. */
import { estimate } from "../../estimate.js";
import type { EstimateInput, WorkItem } from "../../input.js";
import { behindOf, partOf } from "../../resolve.js";
import type { JobDone, ThenAgreed } from "../jobDone.js";
import type { WorkLog } from "../log/workLog.js";
import { type AccountTerms, usualBasis } from "./terms.js";

export type Discount = NonNullable<EstimateInput["policy"]>["discount"];

/** What is logged or ticked off is done, timed or not. `discount`: in place of one in money, which was for all of it; undefined: none. */
export function closedAsAgreed(
  { revision, found, done }: ThenAgreed,
  log: WorkLog,
  current: JobDone["current"],
  { on, agreedThen, discount }: Pick<AccountTerms, "on" | "agreedThen"> & { readonly discount: Discount },
): { readonly job: JobDone; readonly terms: AccountTerms } | undefined {
  const { upTo } = agreedThen!;
  const { discount: agreed, ...policy } = revision.input.policy ?? {};
  const asShared = agreed && "amount" in agreed ? { ...policy, ...(discount && { discount }) } : revision.input.policy;
  const input = { ...revision.input, ...(asShared && { policy: asShared }) };
  const outcome = asShared === revision.input.policy ? { ok: true as const, ...revision } : estimate(input);
  if (!outcome.ok) return undefined;
  const { items } = input;
  const idsOf = ({ id }: WorkItem) => [id, ...items.filter((each) => behindOf(each) === id).map((each) => each.id)];
  const timed = new Set(log.time.flatMap(({ work }) => (work.is === "item" ? [work.id] : [])));
  const used = new Set(log.parts.map(({ item }) => item));
  const whole = items.filter((item) => behindOf(item) === undefined);
  const countOf = (item: WorkItem) => {
    const [, ...behind] = idsOf(item);
    const logged = idsOf(item).some((id) => timed.has(id) || used.has(id));
    return logged || behind.some((id) => (done[id] ?? 0) > 0) ? item.count : Math.min(done[item.id] ?? 0, item.count);
  };
  const counts = Object.fromEntries(whole.map((item) => [item.id, countOf(item)]));
  const untimed = whole.filter((item) => counts[item.id]! > 0 && !idsOf(item).some((id) => timed.has(id)));
  const unlogged = whole.filter(
    (item) => (done[item.id] ?? 0) > 0 && partOf(item) && !used.has(item.id) && !untimed.includes(item),
  );
  return {
    job: {
      revisions: [{ ...revision, input, sheet: outcome.sheet }],
      ...{ found, done: counts, log, promised: true, foundParts: true, ...(current && { current }) },
      untimed: Object.fromEntries(untimed.map(({ id }) => [id, "done"])),
      unlogged: unlogged.map(({ id }) => id),
    },
    terms: {
      ...{ basis: usualBasis(input), on, payments: [], warrantyDays: 0, oldParts: { is: "returned" } },
      limit: { agreed: upTo, upTo, withTax: true, by: "ceiling" },
    },
  };
}
