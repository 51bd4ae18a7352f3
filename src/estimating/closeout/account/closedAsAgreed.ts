/** An agreement that was taken back, closed as agreed with the same of it done: never is more charged for that than this would come to. */
import { same } from "../../agreement/canonical.js";
import { withFound } from "../../agreement/choices.js";
import { estimate } from "../../estimate.js";
import type { EstimateInput, WorkItem } from "../../input.js";
import { isCharged } from "../../labour/groups.js";
import { partsUnlogged, untimedWork } from "../actual/untimed.js";
import { agreedOf, type JobDone, type ThenAgreed } from "../jobDone.js";
import type { WorkLog } from "../log/workLog.js";
import { type AccountTerms, usualBasis } from "./terms.js";

interface Closing extends Pick<AccountTerms, "on"> {
  readonly discount: Discount;
  /** In place of the revision's. */
  readonly items?: readonly WorkItem[];
}

export type Discount = NonNullable<EstimateInput["policy"]>["discount"];

/** What is logged or ticked off is done, timed or not. `discount`: in place of one in money, which was for all of it; undefined: none. */
export function closedAsAgreed(
  { revision, found, done }: ThenAgreed,
  log: WorkLog,
  current: JobDone["current"],
  { on, discount, items = revision.input.items }: Closing,
) {
  const { discount: agreed, ...policy } = revision.input.policy ?? {};
  const asShared = agreed && "amount" in agreed ? { ...policy, ...(discount && { discount }) } : revision.input.policy;
  const input = { ...revision.input, items, ...(asShared && { policy: asShared }) };
  const isPrinted = asShared === revision.input.policy && items === revision.input.items;
  const outcome = isPrinted ? { ok: true as const, ...revision } : estimate(input);
  if (!outcome.ok) return undefined;
  const open = untimedWork(input, log, found);
  const counts = open.map(({ item: { id, count }, ids: [, ...behind], partsLogged }): [string, number] => [
    id,
    partsLogged || behind.some((each) => done[each]) ? count : Math.min(done[id] ?? 0, count),
  ]);
  const unfound = input.items.flatMap(({ id, certainty: is }) =>
    is.is === "if found" && !found.includes(is.group ?? id) ? [[id, 0] as const] : [],
  );
  const job = {
    revisions: [{ ...revision, input, sheet: outcome.sheet }],
    ...{ found, log, promised: true, foundParts: true, linePrices: true, ...(current && { current }) },
    done: Object.fromEntries([...counts, ...unfound]),
    untimed: Object.fromEntries(counts.flatMap(([id, count]) => (count > 0 ? [[id, "done" as const]] : []))),
    unlogged: partsUnlogged(input, log, found).flatMap(({ id }) => (done[id] ? [id] : [])),
  } satisfies JobDone;
  const terms: AccountTerms = {
    ...{ basis: usualBasis(input), on, payments: [], warrantyDays: 0, oldParts: { is: "returned" } },
    // The most for all together is held beside it.
    limit: { agreed: 0, upTo: Number.MAX_SAFE_INTEGER, withTax: true, by: "ceiling" },
  };
  return { job, terms };
}

/**
 * The same with all that an earlier agreement has, which stands and is closed as `stands`: what both share comes once. Work of that which
 * the later had less of, or other, is as it stands.
 */
export function closedTogether(then: ThenAgreed, stands: JobDone, closing: Pick<Closing, "on" | "discount">) {
  const own = chargedIn(withFound(agreedOf(stands).input, stands.found));
  const { input } = then.revision;
  const groups = input.items.flatMap(({ id, certainty: is }) => (is.is === "if found" && own.has(id) ? [is.group ?? id] : []));
  const found = [...new Set([...then.found, ...groups])];
  const later = chargedIn(withFound(input, found));
  const others = [...own.values()].filter((item) => !isWithin(item, later.get(item.id)));
  const swapped = new Map(others.map((item) => [item.id, item]));
  const kept = input.items.map((item) => swapped.get(item.id) ?? item);
  const more = others.filter(({ id }) => !input.items.some((item) => item.id === id));
  const items = others.length > 0 ? [...kept, ...more] : input.items;
  const closed = closedAsAgreed({ ...then, found }, stands.log, stands.current, { ...closing, items });
  if (!closed) return undefined;
  const { job, terms } = closed;
  const rest = <T>(of: Readonly<Record<string, T>>) => Object.fromEntries(Object.entries(of).filter(([id]) => !own.has(id)));
  const counts = [...own.values()].map(({ id, count }) => [id, Math.min(stands.done[id] ?? count, count)]);
  return {
    job: {
      ...{ ...job, done: { ...rest(job.done), ...Object.fromEntries(counts) } },
      untimed: { ...rest(job.untimed), ...stands.untimed },
      unlogged: [...job.unlogged.filter((id) => !own.has(id)), ...(stands.unlogged ?? [])],
    },
    terms,
  };
}

const chargedIn = ({ items }: Pick<EstimateInput, "items">): ReadonlyMap<string, WorkItem> =>
  new Map(items.flatMap((item) => (item.count > 0 && isCharged({ item }) ? [[item.id, item]] : [])));

/** The same work, and as much of it or more. */
const isWithin = (item: WorkItem, later: WorkItem | undefined): boolean =>
  later !== undefined &&
  later.count >= item.count &&
  same({ ...later, count: 0, certainty: undefined }, { ...item, count: 0, certainty: undefined });
