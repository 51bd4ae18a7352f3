/** The demo jobs and small ones, priced by any policy with the shop's figures beside them. */
import { readFileSync } from "node:fs";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, Pricing } from "../../../src/estimating/input.js";
import type { Line, RiskSummary, Sheet } from "../../../src/estimating/sheet.js";

export const DEMO: readonly EstimateInput[] = ["string-organ-keyboard", "tape-echo", "valve-amplifier", "plain-counts"].map(
  (name) => JSON.parse(readFileSync(new URL(`../../../fixtures/demo/${name}.json`, import.meta.url), "utf8")) as EstimateInput,
);
export const [KEYBOARD] = DEMO as [EstimateInput];

export const priced = (input: EstimateInput, pricing: Pricing): EstimateInput => ({
  ...input,
  policy: { ...input.policy, pricing },
});

export const fixed = (confidencePercent: number): Pricing => ({ is: "fixed price", confidencePercent });
export const underCeiling = (confidencePercent: number): Pricing => ({ is: "time and parts with ceiling", confidencePercent });
export const plus = (percent: number): Pricing => ({ is: "expected cost plus", percent });

export function asked(input: EstimateInput, pricing?: Pricing): Sheet & { readonly risk: RiskSummary } {
  const outcome = estimate(pricing ? priced(input, pricing) : input, { risk: true });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return { ...outcome.sheet, risk: outcome.sheet.risk! };
}

export const allowances = ({ lines }: Sheet): Line[] => lines.filter(({ sort }) => sort === "allowance");
export const sum = (amounts: readonly number[]): number => amounts.reduce((total, amount) => total + amount, 0);
export const netOf = ({ totals }: Sheet): number => totals.linesNet - totals.allowances + totals.charges;
