/** Invariant: the parts sum to the amount, each is not zero and has the amount's sign. */
import type { Minor } from "../input.js";
import { split } from "../money/split.js";

/**
 * An amount over all lines, such as a discount, divided among their tax categories in proportion to what each category
 * comes to (categories in order of first line). A category that comes to nothing or less bears no share, unless all do:
 * then sizes count, and all-zero lines put the whole amount on the first line's category. No lines: nothing to spread.
 */
export function spreadOverCategories(
  amount: Minor,
  lines: readonly { readonly amount: Minor; readonly taxCategory: string }[],
): { taxCategory: string; amount: Minor }[] {
  const sums = new Map<string, Minor>();
  for (const line of lines) sums.set(line.taxCategory, (sums.get(line.taxCategory) ?? 0) + line.amount);
  const anyPositive = [...sums.values()].some((sum) => sum > 0);
  const weights = [...sums.values()].map((sum) => (anyPositive ? Math.max(sum, 0) : Math.abs(sum)));
  const parts = split(amount, weights);
  return [...sums.keys()]
    .map((taxCategory, index) => ({ taxCategory, amount: parts[index]! }))
    .filter((part) => part.amount !== 0);
}
