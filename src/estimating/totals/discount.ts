/** A discount comes off the sum of the lines, never more than that, and is spread over their tax categories. */
import type { Minor, Policy, RateBook } from "../input.js";
import { percentOf } from "../money/scales.js";
import type { Adjustment, Line, TaxClass } from "../sheet.js";
import { spreadOverCategories } from "./spread.js";

export interface Discount {
  readonly asked: Minor;
  readonly given: Minor;
  readonly adjustments: readonly Adjustment[];
}

export function discountOn(lines: readonly Line[], discount: Policy["discount"], { tax }: RateBook): Discount {
  if (!discount) return { asked: 0, given: 0, adjustments: [] };
  const base = Math.max(
    0,
    lines.reduce((sum, { amount }) => sum + amount, 0),
  );
  const asked = "percent" in discount ? percentOf(base, discount.percent) : discount.amount;
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

const classOf = (category: string, tax: RateBook["tax"]): TaxClass =>
  (["labour", "parts", "fees", "freight"] as const).find((taxClass) => tax[taxClass] === category) ?? "labour";
