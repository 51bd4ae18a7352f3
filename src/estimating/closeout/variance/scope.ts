/** How what was quoted became what was allowed: change of scope, kept apart from how well the work was estimated. */
import type { Minor } from "../../input.js";
import type { Charged } from "../jobDone.js";
import { CATEGORY_OF, CLOSE_OUT_CATEGORIES, type CloseOutCategory } from "./row.js";

export type ScopeCause =
  /** From the one before, by revision number. */
  | { readonly is: "revision"; readonly from: number; readonly to: number }
  /** Options chosen or not within one revision. */
  | { readonly is: "choice"; readonly revision: number }
  /** Planned work that was not done. */
  | { readonly is: "not done" }
  /** Possible work that proved necessary, as it was agreed in advance. */
  | { readonly is: "found" }
  /** Both, in close-outs from before they were told apart. */
  | { readonly is: "found and done" };

export interface ScopeChange {
  readonly cause: ScopeCause;
  readonly amount: Minor;
  /** Those that changed; they sum to `amount`. */
  readonly categories: readonly { readonly category: CloseOutCategory; readonly amount: Minor }[];
}

/** Their amounts sum to allowed less quoted. */
export function scopeChanges(
  steps: readonly { readonly revision: number; readonly sheet: Charged }[],
  planned: Charged,
  allowed: Charged,
): readonly ScopeChange[] {
  const between = (cause: ScopeCause, before: Charged, after: Charged): ScopeChange[] => {
    const [was, is] = [amountsOf(before), amountsOf(after)];
    const categories = CLOSE_OUT_CATEGORIES.map((category) => ({ category, amount: is[category] - was[category] })).filter(
      ({ amount }) => amount !== 0,
    );
    const amount = categories.reduce((sum, each) => sum + each.amount, 0);
    return categories.length === 0 ? [] : [{ cause, amount, categories }];
  };
  return [
    ...steps.slice(1).flatMap(({ revision, sheet }, index) => {
      const before = steps[index]!;
      return between(
        before.revision === revision ? { is: "choice", revision } : { is: "revision", from: before.revision, to: revision },
        before.sheet,
        sheet,
      );
    }),
    ...between({ is: "not done" }, steps.at(-1)!.sheet, planned),
    ...between({ is: "found" }, planned, allowed),
  ];
}

function amountsOf({ lines, adjustments }: Charged): Record<CloseOutCategory, Minor> {
  const amounts = Object.fromEntries(CLOSE_OUT_CATEGORIES.map((category) => [category, 0])) as Record<CloseOutCategory, Minor>;
  for (const { sort, amount } of lines) amounts[CATEGORY_OF[sort]] += amount;
  for (const { charge, amount } of adjustments) amounts["allowances and charges"] += charge ? amount : -amount;
  return amounts;
}
