import type { Line } from "../estimating/sheet.js";

/** What a line stands under. */
export function lineHeading({ sort, assembly }: Line): string {
  switch (sort) {
    case "access":
      return "Opening and refitting, charged once";
    case "part":
      return "Parts";
    case "scarcity margin":
    case "donor pull":
      return "Parts that are hard to get";
    case "labour rounding":
    case "minimum charge":
      return "Billed time";
    case "allowance":
      return "For what cannot be known beforehand";
    case "fee":
      return "Fees";
    default:
      return assembly?.name ?? "The unit as a whole";
  }
}
