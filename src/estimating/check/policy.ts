/** What is decided for this one estimate. */
import type { Book } from "../book.js";
import type { EstimateInput, Policy, Pricing } from "../input.js";
import { PROFILE_IDS } from "../law/profiles.js";
import type { Problem } from "../problems.js";
import { amount, count, ifGiven, NONE, percent, unknown } from "./figures.js";
import { MOST_PERCENT } from "./rules.js";
import { inside, part, type Spot, spot } from "./spot.js";

/** Below even odds there is nothing to be confident of; beyond the last, a percentile is the tail of a guess. */
const CONFIDENCE = { least: 50, most: 99.9 } as const;
/** More would price a job at many times its cost. */
const MOST_MARGIN = 90;

export function checkPolicy({ policy = {} }: EstimateInput, { partTypes, taxCategories }: Book): Problem[] {
  const to = (words: string, field: keyof Policy) => spot(() => words, "policy", field);
  const {
    pricing,
    discount,
    storageDays,
    benchQueueDays,
    diagnosisLimit,
    prepaid,
    ceiling,
    profile,
    scarcityByType = {},
  } = policy;
  const discounted = to("Discount", "discount");
  return [
    ...ifGiven(discount, (given) =>
      "percent" in given
        ? percent(given.percent, inside(discounted, ["percent"]))
        : amount(given.amount, inside(discounted, ["amount"])),
    ),
    ...ifGiven(discount?.taxCategory, (id) =>
      unknown("tax category unknown", id, taxCategories, inside(discounted, ["taxCategory"])),
    ),
    ...ifGiven(storageDays, (value) => count(value, to("Storage days", "storageDays"))),
    ...ifGiven(benchQueueDays, (value) => count(value, to("Days in the bench queue", "benchQueueDays"))),
    ...ifGiven(diagnosisLimit, (value) => amount(value, to("Diagnosis limit", "diagnosisLimit"))),
    ...ifGiven(prepaid, (value) => amount(value, to("Paid already", "prepaid"))),
    ...ifGiven(ceiling, (value) => amount(value, to("Ceiling", "ceiling"))),
    ...ifGiven(pricing, (given) => checkPricing(given, to("Pricing", "pricing"))),
    ...ifGiven(profile, (id) => unknown("profile unknown", id, PROFILE_IDS, to("Agreement profile", "profile"))),
    ...Object.keys(scarcityByType).flatMap((type) =>
      unknown("part type unknown", type, partTypes, inside(to("Scarcity set by hand", "scarcityByType"), [type])),
    ),
  ];
}

function checkPricing(pricing: Pricing, here: Spot): readonly Problem[] {
  if (pricing.is === "as counted") return NONE;
  const { least, most } = CONFIDENCE;
  return [
    ...("confidencePercent" in pricing
      ? percent(pricing.confidencePercent, part(here, "confidence", "confidencePercent"), most, least)
      : percent(pricing.percent, part(here, "percent on the expected cost", "percent"), MOST_PERCENT)),
    ...ifGiven(pricing.minimumMarginPercent, (value) =>
      percent(value, part(here, "least margin", "minimumMarginPercent"), MOST_MARGIN),
    ),
  ];
}
