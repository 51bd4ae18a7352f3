/** A discount comes off the sum of the lines, or of those of one tax category, never more than that, and is spread over their tax categories. */
import type { Minor, Policy, RateBook } from "../input.js";
import { percentOf } from "../money/scales.js";
import { split } from "../money/split.js";
import type { Adjustment, Line, TaxClass } from "../sheet.js";

interface Discount {
  readonly asked: Minor;
  readonly given: Minor;
  readonly adjustments: readonly Adjustment[];
}

export function discountOn(
  all: readonly Pick<Line, "amount" | "taxCategory">[],
  discount: Policy["discount"],
  { tax }: RateBook,
): Discount {
  if (!discount) return { asked: 0, given: 0, adjustments: [] };
  const { taxCategory: only } = discount;
  const lines = only === undefined ? all : all.filter(({ taxCategory }) => taxCategory === only);
  const base = Math.max(
    0,
    lines.reduce((sum, { amount }) => sum + amount, 0),
  );
  const asked = discountAsked(base, discount);
  const given = Math.min(asked, base);
  const parts = given > 0 ? spreadOverCategories(given, lines) : [];
  const byPercent = "percent" in discount ? { percent: discount.percent, ...(parts.length === 1 && { base }) } : {};
  const adjustments = parts.map(
    ({ taxCategory, amount }): Adjustment => ({
      id: parts.length === 1 ? "discount" : `discount:${taxCategory}`,
      sort: "discount",
      charge: false,
      amount,
      taxCategory,
      taxClass: classOf(taxCategory, tax),
      ...byPercent,
      reason: discount.reason,
      from: [
        { is: "policy", entry: "/discount" },
        { is: "rule", rule: "discount" },
      ],
    }),
  );
  return { asked, given, adjustments };
}

export const discountAsked = (base: Minor, discount: Policy["discount"]): Minor =>
  discount === undefined ? 0 : "percent" in discount ? percentOf(base, discount.percent) : discount.amount;

const classOf = (category: string, tax: RateBook["tax"]): TaxClass =>
  (["labour", "parts", "fees", "freight"] as const).find((taxClass) => tax[taxClass] === category) ?? "labour";

/**
 * An amount over all lines, such as a discount, divided among their tax categories in proportion to what each category
 * comes to (categories in order of first line). A category that comes to nothing or less bears no share, unless all do:
 * then sizes count, and all-zero lines put the whole amount on the first line's category. No lines: nothing to spread. The parts sum to
 * the amount; each is not zero and has its sign.
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
