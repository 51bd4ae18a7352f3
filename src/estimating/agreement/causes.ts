/**
 * Money by cause: the change is applied in steps, one cause at a time, and each step is repriced; a cause costs what its step adds.
 * The steps telescope, so the sum over causes is the difference of the two totals.
 */
import { estimate } from "../estimate.js";
import type { EstimateInput, Minor, WorkItem } from "../input.js";
import { same } from "./canonical.js";
import { type Difference, difference, withContext } from "./difference.js";

export const CAUSES = [
  "prices",
  "condition",
  "access",
  "dropped",
  "corrected",
  "found",
  "choice",
  "extra faults",
  "terms",
] as const;
export type Cause = (typeof CAUSES)[number];

export interface CauseAmount {
  readonly cause: Cause;
  /** Tax included; negative when it lowers the total. */
  readonly amount: Minor;
  readonly items: readonly string[];
}

export interface Change {
  readonly difference: Difference;
  readonly causes: readonly CauseAmount[];
  readonly before: Minor;
  readonly after: Minor;
}

/** Why one item that stands in both revisions differs. */
export function causeOf(before: WorkItem, after: WorkItem): "found" | "choice" | "corrected" {
  const rest = (item: WorkItem) => ({ ...item, certainty: null, reason: null });
  if (!same(rest(before), rest(after))) return "corrected";
  if (before.certainty.is === "if found" && after.certainty.is === "planned") return "found";
  if (before.certainty.is === "optional" && after.certainty.is !== "if found") return "choice";
  return "corrected";
}

/** Both inputs must price without problems; throws otherwise, since only issued or priced revisions are compared. */
export function change(before: EstimateInput, after: EstimateInput): Change {
  const diff = difference(before, after);
  const total = (input: EstimateInput): Minor | undefined => {
    const outcome = estimate(input);
    return outcome.ok ? outcome.sheet.totals.total : undefined;
  };
  const first = total(before);
  const last = total(after);
  if (first === undefined || last === undefined) throw new Error("Only revisions that price without problems can be compared");
  const causes: CauseAmount[] = [];
  let standing = first;
  let input = before;
  for (const cause of CAUSES) {
    const step = applyCause(input, diff, cause);
    if (!step) continue;
    input = step.input;
    // A step that does not stand by itself (work on an assembly that goes with it) is charged with the next that does.
    const priced = total(input) ?? standing;
    causes.push({ cause, amount: priced - standing, items: step.items });
    standing = priced;
  }
  const rest = last - standing;
  if (rest !== 0) {
    if (causes.length === 0) causes.push({ cause: "corrected", amount: 0, items: [] });
    const at = causes.length - 1;
    causes[at] = { ...causes[at]!, amount: causes[at]!.amount + rest };
  }
  return { difference: diff, causes, before: first, after: last };
}

function applyCause(input: EstimateInput, diff: Difference, cause: Cause): { input: EstimateInput; items: string[] } | undefined {
  const context = (keys: Parameters<typeof withContext>[2]) =>
    keys.some((key) => diff.context[key]) ? { input: withContext(input, diff, keys), items: [] } : undefined;
  const items = (next: readonly WorkItem[], touched: readonly WorkItem[]) =>
    touched.length ? { input: { ...input, items: next }, items: touched.map((item) => item.id) } : undefined;
  switch (cause) {
    case "prices":
      return context(["asOf", "kinds", "offers", "rateBook"]);
    case "condition":
      return context(["unit"]);
    case "access":
      return context(["map", "boards", "alreadyOpen"]);
    case "terms":
      return context(["policy", "currency", "paperwork"]);
    case "dropped": {
      const gone = new Set(diff.dropped.map((item) => item.id));
      return items(
        input.items.filter((item) => !gone.has(item.id)),
        diff.dropped,
      );
    }
    case "extra faults":
      return items([...input.items, ...diff.added], diff.added);
    default: {
      const touched = diff.changed.filter(({ before, after }) => causeOf(before, after) === cause).map(({ after }) => after);
      const by = new Map(touched.map((item) => [item.id, item]));
      return items(
        input.items.map((item) => by.get(item.id) ?? item),
        touched,
      );
    }
  }
}
