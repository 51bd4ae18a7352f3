export type RiskSourceName = "condition" | "labour" | "sourcing" | "if found";

const TEXT: Readonly<Record<RiskSourceName, string>> = {
  condition: "condition of the unit",
  labour: "how long it takes",
  sourcing: "how many to buy",
  "if found": "whether it is found",
};

/** Why a thing's cost is not certain. */
export const riskSourceText = (source: RiskSourceName): string => TEXT[source];
