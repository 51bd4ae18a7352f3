/** What is measured, each beside a floor of the same run. Plain functions: the same list runs in Node and in workerd. */
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { distributionOf } from "../../src/estimating/risk/distribution.js";
import { HUNDRED } from "../estimating/risk/jobShapes.js";
import { simulate } from "../estimating/risk/simulation.js";
import { base, ofSize } from "./demoJob.js";
import { pdfWork } from "./pdf.js";
import { withRareParts } from "./rareParts.js";

export interface Work {
  readonly name: string;
  readonly items: number;
  readonly floorName: string;
  readonly run: () => unknown;
  readonly floor: () => unknown;
}

/** Draws of the simulation that the distribution is held against. */
export const DRAWS = 20_000;
/** Also measured at its first call. */
export const RISK_OF_100 = "100 items, 10 buy plans";

export async function works(): Promise<Work[]> {
  const pricing = [10, 100, 1000].map((items): Work => {
    const input = ofSize(items);
    const text = JSON.stringify(input);
    return {
      name: `price ${items} items`,
      items,
      floorName: "JSON parse of the input",
      run: () => estimate(input),
      floor: () => JSON.parse(text),
    };
  });
  const outcome = estimate(base);
  if (!outcome.ok) throw new Error("The demo estimate does not price");
  const pdf = await pdfWork(outcome.sheet, base);
  const floorName = "the same glyphs, no layout";
  return [
    ...pricing,
    ...riskWorks(),
    { name: "estimate PDF", items: base.items.length, floorName, run: pdf.render, floor: pdf.floor },
  ];
}

function riskWorks(): Work[] {
  const ofItems = (items: number, kinds: number, name: string): Work => {
    const fixed = withRareParts(items, kinds);
    const counted: EstimateInput = { ...fixed, policy: base.policy ?? {} };
    return {
      name,
      items,
      floorName: "the same as counted",
      run: () => estimate(fixed, { risk: true }),
      floor: () => estimate(counted),
    };
  };
  const model = HUNDRED(0.25);
  return [
    ofItems(10, 0, "risk of 10 items"),
    ofItems(100, 0, "risk of 100 items"),
    ofItems(1000, 0, "risk of 1000 items"),
    ofItems(100, 10, RISK_OF_100),
    {
      name: "its distribution",
      items: 100,
      floorName: `${DRAWS} simulated jobs`,
      run: () => distributionOf(model).quantile(0.8),
      floor: () => simulate(model, DRAWS, 1),
    },
  ];
}
