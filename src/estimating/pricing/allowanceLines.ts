/** What a price charges for risk, as lines of their own, each with its reason. They sum to the margin to the minor unit. */
import type { Minor, TaxRules } from "../input.js";
import { allowancesFor } from "../risk/allowances.js";
import type { RiskModel } from "../risk/model.js";
import type { Line, Why } from "../sheet.js";

/** `parts`: names of those bought by plan; `work`: names of what may be found. Nothing is said of an allowance of 0. */
export function allowanceLines(
  model: RiskModel,
  margin: Minor,
  { parts, work }: { readonly parts: readonly string[]; readonly work: readonly string[] },
  tax: TaxRules,
): Line[] {
  const why: Readonly<Record<"labour" | "sourcing" | "if found", Why>> = {
    labour: { rule: "labour allowance" },
    sourcing: { rule: "sourcing allowance", parts },
    "if found": { rule: "if-found allowance", work },
  };
  return allowancesFor(model, margin)
    .filter(({ amount }) => amount !== 0)
    .map(({ is, amount }) => {
      const taxClass = is === "sourcing" ? "parts" : "labour";
      return {
        id: `allowance:${is}`,
        sort: "allowance",
        taxClass,
        taxCategory: tax[taxClass],
        amount,
        why: why[is],
        from: [
          { is: "policy", entry: "/pricing" },
          { is: "rule", rule: "allowance for risk" },
        ],
      };
    });
}
