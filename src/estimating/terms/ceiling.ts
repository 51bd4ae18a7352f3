/** The amount above which the shop may not go without a new agreement, tax included. */
import type { Minor, Policy, RateBook } from "../input.js";
import { percentOf } from "../money/scales.js";
import type { Sheet } from "../sheet.js";

export function ceilingOver(total: Minor, policy: Policy, { ceiling }: RateBook): Sheet["ceiling"] {
  if (policy.ceiling !== undefined) return { amount: policy.ceiling, from: { is: "rule", rule: "ceiling set by owner" } };
  return { amount: total + percentOf(total, ceiling.abovePercent), from: { is: "rule", rule: "ceiling above total" } };
}
