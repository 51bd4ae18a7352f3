/** What a price charges above the work as counted, for risk and as margin: lines of their own, each with its reason. They sum to it to the minor unit. */
import type { Minor, TaxRules } from "../input.js";
import { type Allowance, allowancesFor } from "../risk/allowances.js";
import type { RiskModel } from "../risk/model.js";
import type { Line, Why } from "../sheet.js";

/** `above`: all of it; `margin`: how much of it is set against no risk. `parts`: names of those bought by plan; `work`: names of what may be found. Nothing is said of an allowance of 0. */
export function allowanceLines(
  model: RiskModel,
  { above, margin }: { readonly above: Minor; readonly margin: Minor },
  { parts, work }: { readonly parts: readonly string[]; readonly work: readonly string[] },
  tax: TaxRules,
): Line[] {
  const why: Readonly<Record<Allowance["is"] | "margin", Why>> = {
    labour: { rule: "labour allowance" },
    sourcing: { rule: "sourcing allowance", parts },
    "if found": { rule: "if-found allowance", work },
    margin: { rule: "margin allowance" },
  };
  return [...allowancesFor(model, above - margin), { is: "margin", amount: margin } as const]
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
