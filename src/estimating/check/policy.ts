/** What is decided for this one estimate. */
import { PROFILE_IDS } from "../agreement/profile.js";
import type { Book } from "../book.js";
import type { EstimateInput, Policy } from "../input.js";
import type { Problem } from "../problems.js";
import { amount, count, ifGiven, percent } from "./figures.js";
import { unknown } from "./ids.js";
import { inside, spot } from "./spot.js";

export function checkPolicy({ policy = {} }: EstimateInput, { partTypes }: Book): Problem[] {
  const to = (words: string, field: keyof Policy) => spot(() => words, "policy", field);
  const { discount, storageDays, benchQueueDays, diagnosisLimit, prepaid, ceiling, profile, scarcityByType = {} } = policy;
  const discounted = to("Discount", "discount");
  return [
    ...ifGiven(discount, (given) =>
      "percent" in given
        ? percent(given.percent, inside(discounted, ["percent"]))
        : amount(given.amount, inside(discounted, ["amount"])),
    ),
    ...ifGiven(storageDays, (value) => count(value, to("Storage days", "storageDays"))),
    ...ifGiven(benchQueueDays, (value) => count(value, to("Days in the bench queue", "benchQueueDays"))),
    ...ifGiven(diagnosisLimit, (value) => amount(value, to("Diagnosis limit", "diagnosisLimit"))),
    ...ifGiven(prepaid, (value) => amount(value, to("Paid already", "prepaid"))),
    ...ifGiven(ceiling, (value) => amount(value, to("Ceiling", "ceiling"))),
    ...ifGiven(profile, (id) => unknown("profile unknown", id, PROFILE_IDS, to("Agreement profile", "profile"))),
    ...Object.keys(scarcityByType).flatMap((type) =>
      unknown("part type unknown", type, partTypes, inside(to("Scarcity set by hand", "scarcityByType"), [type])),
    ),
  ];
}
