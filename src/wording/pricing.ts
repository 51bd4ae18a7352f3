import type { Pricing } from "../estimating/input.js";
import { jobsIn } from "./jobs.js";
import { percent } from "./percent.js";

/** 'Fixed price that covers 4 jobs in 5.' */
export function pricingText(pricing: Pricing, locale: string): string {
  const least = "minimumMarginPercent" in pricing ? pricing.minimumMarginPercent : undefined;
  const margin = least ? `, and leaves ${percent(least, locale)} of the price or more over the expected cost` : "";
  switch (pricing.is) {
    case "as counted":
      return "Priced as counted: likely times, nothing found.";
    case "fixed price":
      return `Fixed price that covers ${jobsIn(pricing.confidencePercent / 100)}${margin}.`;
    case "time and parts with ceiling":
      return `Time and parts, with a ceiling that covers ${jobsIn(pricing.confidencePercent / 100)}${margin}.`;
    case "expected cost plus":
      return `Fixed price: the expected cost and ${percent(pricing.percent, locale)} of it${margin}.`;
  }
}
