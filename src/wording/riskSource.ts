import type { RiskShare } from "../estimating/sheet.js";

const TEXT: Readonly<Record<RiskShare["source"], string>> = {
  condition: "condition of the unit",
  labour: "how long it takes",
  sourcing: "how many to buy",
  "if found": "whether it is found",
};

/** Why a thing's cost is not certain. */
export const riskSourceText = (source: RiskShare["source"]): string => TEXT[source];
