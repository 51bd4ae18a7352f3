/** What is decided for this one estimate. */

import type { Policy, Scarcity } from "../../estimating/input.js";
import { PROFILES } from "../../estimating/law/profiles.js";
import { SCARCITIES } from "../../estimating/lists.js";
import type { Draft } from "./draft.js";
import { idOf } from "./fields.js";
import { given } from "./given.js";
import { pricingWhere, readPricing } from "./pricing.js";
import { choice, count, line, money, number, type Reading } from "./reading.js";

export function readTerms(at: Reading, draft: Draft): Policy | undefined {
  const { terms, scarcity } = draft;
  for (const [entry, field] of WHERE) at.where.set(`/policy/${entry}`, `terms.${field}`);
  const byType: Record<string, Scarcity> = {};
  for (const [typeKey, text] of Object.entries(scarcity)) {
    const set = choice<Scarcity>(at, `scarcity.${typeKey}`, text, SCARCITIES);
    if (set) byType[idOf(typeKey)] = set;
  }
  const policy: Policy = given({
    discount: readDiscount(at, terms),
    rush: terms.rush ? true : undefined,
    storageDays: count(at, "terms.storageDays", terms.storageDays),
    diagnosis: terms.diagnosis ? true : undefined,
    diagnosisLimit: money(at, "terms.diagnosisLimit", terms.diagnosisLimit),
    prepaid: money(at, "terms.prepaid", terms.prepaid),
    benchQueueDays: count(at, "terms.queue", terms.queue),
    ceiling: money(at, "terms.ceiling", terms.ceiling),
    scarcityByType: Object.keys(byType).length > 0 ? byType : undefined,
    profile: choice(
      at,
      "terms.profile",
      terms.profile,
      PROFILES.map(({ id }) => id),
    ),
    pricing: readPricing(at, draft),
  });
  return Object.keys(policy).length > 0 ? policy : undefined;
}

const WHERE = [
  ["discount", "discount"],
  ["storageDays", "storageDays"],
  ["diagnosisLimit", "diagnosisLimit"],
  ["prepaid", "prepaid"],
  ["benchQueueDays", "queue"],
  ["ceiling", "ceiling"],
  ["profile", "profile"],
  ...pricingWhere,
] as const;

/** A discount always says why: the owner reads the reason. */
function readDiscount(at: Reading, terms: Draft["terms"]): Policy["discount"] {
  const by = choice(at, "terms.discountBy", terms.discountBy, ["percent", "amount"]) ?? "percent";
  const size = by === "percent" ? number(at, "terms.discount", terms.discount, 4) : money(at, "terms.discount", terms.discount);
  const reason = line(at, "terms.discountReason", terms.discountReason);
  if (size === undefined) return undefined;
  if (reason === undefined) at.problems.push({ name: "reason missing", field: "terms.discountReason" });
  return by === "percent" ? { percent: size, reason: reason ?? "" } : { amount: size, reason: reason ?? "" };
}
