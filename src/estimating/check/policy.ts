/** What is decided for this one estimate. */
import type { Book } from "../book.js";
import type { EstimateInput } from "../input.js";
import type { Problem } from "../problems.js";
import { amount, count, percent } from "./figures.js";
import { unknown } from "./ids.js";
import { pointer } from "./pointer.js";

export function checkPolicy({ policy = {} }: EstimateInput, { partTypes }: Book): Problem[] {
  const { discount, storageDays, benchQueueDays, diagnosisLimit, prepaid, ceiling, scarcityByType = {} } = policy;
  const optional = (value: number | undefined, what: string, field: string, check: typeof amount) =>
    value === undefined ? [] : check(value, what, pointer("policy", field));
  return [
    ...(discount === undefined
      ? []
      : "percent" in discount
        ? percent(discount.percent, "Discount", "/policy/discount/percent")
        : amount(discount.amount, "Discount", "/policy/discount/amount")),
    ...optional(storageDays, "Storage days", "storageDays", count),
    ...optional(benchQueueDays, "Days in the bench queue", "benchQueueDays", count),
    ...optional(diagnosisLimit, "Diagnosis limit", "diagnosisLimit", amount),
    ...optional(prepaid, "Paid already", "prepaid", amount),
    ...optional(ceiling, "Ceiling", "ceiling", amount),
    ...Object.keys(scarcityByType).flatMap((type) =>
      unknown("part type unknown", type, partTypes, "Scarcity set by hand", pointer("policy", "scarcityByType", type)),
    ),
  ];
}
