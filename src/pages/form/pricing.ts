/** How the price stands to the risk of the job, from and to fields. Figures the chosen pricing does not use stay in the form unread. */
import type { Pricing } from "../../estimating/input.js";
import type { Draft } from "./draft.js";
import type { Pairs, Pen } from "./fieldsFor.js";
import { given } from "./given.js";
import { choice, number, type Reading } from "./reading.js";

export const PRICINGS: readonly Pricing["is"][] = [
  "as counted",
  "fixed price",
  "time and parts with ceiling",
  "expected cost plus",
];

/** Offered until the shop types another one. */
export const USUAL_CONFIDENCE = "80";
const DECIMALS = 4;

export const pricingWhere = [
  ["pricing", "pricing"],
  ["pricing/confidencePercent", "confidence"],
  ["pricing/percent", "margin"],
  ["pricing/minimumMarginPercent", "leastMargin"],
] as const;

/** As counted, or a figure wanting: undefined. */
export function readPricing(at: Reading, { terms }: Draft): Pricing | undefined {
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

export function fieldsForPricing(pricing: Pricing = { is: "as counted" }, { number }: Pen): Pairs {
  return [
    ["terms.pricing", pricing.is === "as counted" ? undefined : pricing.is],
    ["terms.confidence", "confidencePercent" in pricing ? number(pricing.confidencePercent) : USUAL_CONFIDENCE],
    ["terms.margin", "percent" in pricing ? number(pricing.percent) : undefined],
    ["terms.leastMargin", "minimumMarginPercent" in pricing ? number(pricing.minimumMarginPercent) : undefined],
  ];
}
