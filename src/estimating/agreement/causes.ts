/**
 * Money by cause: the change is applied in steps, one cause at a time, and each step is priced as a whole estimate; a cause costs
 * what its step adds. The steps telescope, so the sum over the causes is the difference of the two totals.
 *
 * The order is that of a shop telling its owner: what was agreed at today's prices, in today's condition and with today's map; less
 * what is dropped; with what was found or chosen, at the counts agreed; corrected; then what is new beside all that; then the terms.
 */
import type { EstimateInput, Minor, Policy, WorkItem } from "../input.js";
import { totalOf } from "../pricing/total.js";
import { same } from "./canonical.js";
import { type ContextKey, type Difference, difference, withContext } from "./difference.js";

export const CAUSES = [
  "prices",
  "condition",
  "access",
  "dropped",
  "found",
  "choice",
  "corrected",
  "extra faults",
  "terms",
] as const;
export type Cause = (typeof CAUSES)[number];

export interface CauseAmount {
  readonly cause: Cause;
  /** Causes that could not be priced apart from this one, such as an operation that went with the work that used it. */
  readonly together?: readonly Cause[];
  /** Tax included; negative when it lowers the total. */
  readonly amount: Minor;
  /** Ids of the work items concerned. */
  readonly items: readonly string[];
}

/** What prices rest on. */
const PRICES: readonly ContextKey[] = ["asOf", "kinds", "offers", "exchange", "rateBook"];

interface Step {
  readonly cause: Cause;
  readonly items: readonly string[];
  readonly take: (input: EstimateInput) => EstimateInput;
}

/** Minor units, tax included; what makes no difference is left out. Undefined when the two cannot be compared: one has problems, or they are in different currencies. */
export function moneyByCause(before: EstimateInput, after: EstimateInput): CauseAmount[] | undefined {
  if (before.currency !== after.currency) return undefined;
  const first = totalOf(before);
  const last = totalOf(after);
  if (first === undefined || last === undefined) return undefined;
  const amounts: CauseAmount[] = [];
  let pending = stepsOf(difference(before, after));
  let input = before;
  let standing = first;
  while (pending.length > 0) {
    const next = nextToStand(input, pending, last);
    const [{ cause }, ...others] = next.steps as [Step, ...Step[]];
    amounts.push({
      cause,
      ...(others.length > 0 && { together: others.map((step) => step.cause) }),
      amount: next.total - standing,
      items: next.steps.flatMap(({ items }) => items),
    });
    standing = next.total;
    input = next.input;
    pending = pending.filter((step) => !next.steps.includes(step));
  }
  return amounts.filter(({ amount }) => amount !== 0);
}

/** The first step that stands by itself; failing that the fewest first ones that do together. All of them are the later revision. */
function nextToStand(input: EstimateInput, pending: readonly Step[], last: Minor) {
  const alone = pending.map((step) => [step]);
  const joined = pending.map((_, at) => pending.slice(0, at + 1)).slice(1);
  for (const steps of [...alone, ...joined]) {
    const next = steps.reduce((taken, step) => step.take(taken), input);
    const total = steps.length === pending.length ? last : totalOf(next);
    if (total !== undefined) return { steps, input: next, total };
  }
  throw new Error("All steps together are the later revision, which was priced.");
}

function stepsOf(diff: Difference): Step[] {
  const gone = new Set(diff.dropped.map(({ id }) => id));
  const step = (cause: Cause, items: readonly WorkItem[], take: Step["take"]): Step[] =>
    items.length > 0 ? [{ cause, items: items.map(({ id }) => id), take }] : [];
  const context = (cause: Cause, keys: readonly ContextKey[], concerns: boolean, take = taking(diff, keys)): Step[] =>
    concerns || keys.some((key) => diff.context[key]) ? [{ cause, items: [], take }] : [];
  const changed = (cause: "found" | "choice" | "corrected") => {
    const concerned = diff.changed.filter(({ before, after }) => causesOf(before, after).includes(cause));
    const by = new Map(concerned.map(({ before, after }) => [before.id, after]));
    return step(
      cause,
      concerned.map(({ after }) => after),
      (input) => ({ ...input, items: input.items.map((item) => changedBy(cause, item, by.get(item.id))) }),
    );
  };
  const { unit, policy } = diff.context;
  const graded = unit?.before?.grade !== unit?.after?.grade;
  const scarcity = !same(policy?.before?.scarcityByType, policy?.after?.scarcityByType);
  const terms = !same(withoutScarcity(policy?.before), withoutScarcity(policy?.after));
  return [
    ...context("prices", PRICES, scarcity, (input) =>
      withTerms(taking(diff, PRICES)(input), input.policy, scarcity ? policy?.after : input.policy),
    ),
    ...context("condition", [], graded, taking(diff, ["unit"])),
    ...context("access", ["map", "boards", "alreadyOpen", "openAtNoCharge", "toOpen"], false),
    ...step("dropped", diff.dropped, (input) => ({ ...input, items: input.items.filter(({ id }) => !gone.has(id)) })),
    ...changed("found"),
    ...changed("choice"),
    ...changed("corrected"),
    ...step("extra faults", diff.added, (input) => ({ ...input, items: [...input.items, ...diff.added] })),
    ...context("terms", [], terms, (input) => withTerms(input, policy?.after, input.policy)),
  ];
}

const taking = (diff: Difference, keys: readonly ContextKey[]) => (input: EstimateInput) => withContext(input, diff, keys);

/** Why an item that stands in both revisions differs; an item found and counted anew has both causes. */
export function causesOf(before: WorkItem, after: WorkItem): ("found" | "choice" | "corrected")[] {
  const rest = ({ certainty: _, reason: __, ...item }: WorkItem) => item;
  const [was, is] = [before.certainty, after.certainty];
  const decided =
    was.is === "if found" && is.is === "planned"
      ? "found"
      : was.is === "optional" || is.is === "optional"
        ? "choice"
        : "corrected";
  const causes = new Set(same(was, is) ? [] : ([decided] as const));
  if (!same(rest(before), rest(after))) causes.add("corrected");
  return [...causes];
}

function changedBy(cause: "found" | "choice" | "corrected", item: WorkItem, after: WorkItem | undefined): WorkItem {
  if (!after) return item;
  if (cause !== "corrected") return { ...item, certainty: after.certainty };
  return causesOf({ ...after, certainty: item.certainty }, after).includes("corrected")
    ? after
    : { ...after, certainty: item.certainty };
}

const withoutScarcity = (policy: Policy | undefined): Policy => {
  const { scarcityByType: _, ...rest } = policy ?? {};
  return rest;
};

/** Scarcity set by hand is a matter of prices, the rest of the policy of terms. */
export const withTerms = (input: EstimateInput, terms: Policy | undefined, scarcity: Policy | undefined): EstimateInput => ({
  ...input,
  policy: { ...withoutScarcity(terms), ...(scarcity?.scarcityByType && { scarcityByType: scarcity.scarcityByType }) },
});
