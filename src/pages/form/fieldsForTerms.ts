/** What was decided for one estimate, as fields. */
import type { Policy } from "../../estimating/input.js";
import { key } from "./fields.js";
import type { Pairs, Pen } from "./fieldsFor.js";
import { fieldsForPricing } from "./pricing.js";

export function fieldsForTerms(policy: Policy, pen: Pen): Pairs {
  const { discount } = policy;
  return [
    ["terms.discount", discount && ("percent" in discount ? pen.number(discount.percent) : pen.money(discount.amount))],
    ["terms.discountBy", discount && ("percent" in discount ? "percent" : "amount")],
    ["terms.discountReason", discount?.reason],
    ["terms.rush", policy.rush ? "on" : undefined],
    ["terms.storageDays", pen.number(policy.storageDays)],
    ["terms.diagnosis", policy.diagnosis ? "on" : undefined],
    ["terms.diagnosisLimit", pen.money(policy.diagnosisLimit)],
    ["terms.prepaid", pen.money(policy.prepaid)],
    ["terms.queue", pen.number(policy.benchQueueDays)],
    ["terms.ceiling", pen.money(policy.ceiling)],
    ["terms.profile", policy.profile],
    ...fieldsForPricing(policy.pricing, pen),
    ...Object.entries(policy.scarcityByType ?? {}).map(([type, scarcity]) => [`scarcity.${key(type)}`, scarcity] as const),
  ];
}
