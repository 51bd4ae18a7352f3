/** What is decided for this one estimate, from and to fields. */
import type { Policy, Pricing, Scarcity } from "../../estimating/input.js";
import { PROFILES } from "../../estimating/law/profiles.js";
import { SCARCITIES } from "../../estimating/lists.js";
import type { Pairs, Pen } from "./context.js";
import type { Draft } from "./draft.js";
import { given, idOf, key } from "./fields.js";
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
  ["pricing", "pricing"],
  ["pricing/confidencePercent", "confidence"],
  ["pricing/percent", "margin"],
  ["pricing/minimumMarginPercent", "leastMargin"],
] as const;

/** A discount always says why: the owner reads the reason. */
function readDiscount(at: Reading, terms: Draft["terms"]): Policy["discount"] {
  const by = choice(at, "terms.discountBy", terms.discountBy, ["percent", "amount"]) ?? "percent";
  const size = by === "percent" ? number(at, "terms.discount", terms.discount, 4) : money(at, "terms.discount", terms.discount);
  const reason = line(at, "terms.discountReason", terms.discountReason);
  if (size === undefined) return undefined;
  if (reason === undefined) at.problems.push({ name: "reason missing", field: "terms.discountReason" });
  const told = { reason: reason ?? "", ...(terms.discountOf && { taxCategory: terms.discountOf }) };
  return by === "percent" ? { percent: size, ...told } : { amount: size, ...told };
}

/** How the price stands to the risk of the job. Figures the chosen pricing does not use stay in the form unread. */
const PRICINGS: readonly Pricing["is"][] = ["as counted", "fixed price", "time and parts with ceiling", "expected cost plus"];

/** Offered until the shop types another one. */
export const USUAL_CONFIDENCE = "80";
const DECIMALS = 4;

/** As counted, or a figure wanting: undefined. */
function readPricing(at: Reading, { terms }: Draft): Pricing | undefined {
  const is = choice(at, "terms.pricing", terms.pricing, PRICINGS) ?? "as counted";
  if (is === "as counted") return undefined;
  const figure = is === "expected cost plus" ? "margin" : "confidence";
  const read = wanted(at, `terms.${figure}`, terms[figure]);
  const minimumMarginPercent = number(at, "terms.leastMargin", terms.leastMargin, DECIMALS);
  if (read === undefined) return undefined;
  return given(
    is === "expected cost plus"
      ? { is, percent: read, minimumMarginPercent }
      : { is, confidencePercent: read, minimumMarginPercent },
  );
}

function wanted(at: Reading, field: string, text = ""): number | undefined {
  if (text.trim() === "") at.problems.push({ name: "missing", field });
  return number(at, field, text, DECIMALS);
}

function fieldsForPricing(pricing: Pricing = { is: "as counted" }, { number }: Pen): Pairs {
  return [
    ["terms.pricing", pricing.is === "as counted" ? undefined : pricing.is],
    ["terms.confidence", "confidencePercent" in pricing ? number(pricing.confidencePercent) : USUAL_CONFIDENCE],
    ["terms.margin", "percent" in pricing ? number(pricing.percent) : undefined],
    ["terms.leastMargin", "minimumMarginPercent" in pricing ? number(pricing.minimumMarginPercent) : undefined],
  ];
}

/** What was decided for one estimate, as fields. */
export function fieldsForTerms(policy: Policy, pen: Pen): Pairs {
  const { discount } = policy;
  return [
    ["terms.discount", discount && ("percent" in discount ? pen.number(discount.percent) : pen.money(discount.amount))],
    ["terms.discountBy", discount && ("percent" in discount ? "percent" : "amount")],
    ["terms.discountReason", discount?.reason],
    ["terms.discountOf", discount?.taxCategory],
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
