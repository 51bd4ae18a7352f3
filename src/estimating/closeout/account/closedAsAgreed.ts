/** An agreement that was taken back, closed as agreed with the same of it done: never is more charged for that than this would come to. */
import { estimate } from "../../estimate.js";
import type { EstimateInput } from "../../input.js";
import { partsUnlogged, untimedWork } from "../actual/untimed.js";
import type { JobDone, ThenAgreed } from "../jobDone.js";
import type { WorkLog } from "../log/workLog.js";
import { type AccountTerms, usualBasis } from "./terms.js";

export type Discount = NonNullable<EstimateInput["policy"]>["discount"];

/** What is logged or ticked off is done, timed or not. `discount`: in place of one in money, which was for all of it; undefined: none. */
export function closedAsAgreed(
  { revision, found, done }: ThenAgreed,
  log: WorkLog,
  current: JobDone["current"],
  { on, discount }: Pick<AccountTerms, "on"> & { readonly discount: Discount },
): { readonly job: JobDone; readonly terms: AccountTerms } | undefined {
  const { discount: agreed, ...policy } = revision.input.policy ?? {};
  const asShared = agreed && "amount" in agreed ? { ...policy, ...(discount && { discount }) } : revision.input.policy;
  const input = { ...revision.input, ...(asShared && { policy: asShared }) };
  const outcome = asShared === revision.input.policy ? { ok: true as const, ...revision } : estimate(input);
  if (!outcome.ok) return undefined;
  const open = untimedWork(input, log, found);
  const counts = open.map(({ item: { id, count }, ids: [, ...behind], partsLogged }): [string, number] => [
    id,
    partsLogged || behind.some((each) => done[each]) ? count : Math.min(done[id] ?? 0, count),
  ]);
  const unfound = input.items.flatMap(({ id, certainty: is }) =>
    is.is === "if found" && !found.includes(is.group ?? id) ? [[id, 0] as const] : [],
  );
  return {
    job: {
      revisions: [{ ...revision, input, sheet: outcome.sheet }],
      ...{ found, log, promised: true, foundParts: true, ...(current && { current }) },
      done: Object.fromEntries([...counts, ...unfound]),
      untimed: Object.fromEntries(counts.map(([id]) => [id, "done"])),
      unlogged: partsUnlogged(input, log, found).flatMap(({ id }) => (done[id] ? [id] : [])),
    },
    terms: {
      ...{ basis: usualBasis(input), on, payments: [], warrantyDays: 0, oldParts: { is: "returned" } },
      // The most for all together is held beside it.
      limit: { agreed: 0, upTo: Number.MAX_SAFE_INTEGER, withTax: true, by: "ceiling" },
    },
  };
}
