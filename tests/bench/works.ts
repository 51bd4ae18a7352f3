/** What is measured, each beside a floor of the same run. Plain functions: the same list runs in Node and in workerd. */
import demo from "../../fixtures/demo/string-organ-keyboard.json" with { type: "json" };
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput, WorkItem } from "../../src/estimating/input.js";
import { pdfWork } from "./pdf.js";

export interface Work {
  readonly name: string;
  readonly items: number;
  readonly floorName: string;
  readonly run: () => unknown;
  readonly floor: () => unknown;
}

const base = demo as unknown as EstimateInput;

/** The demo estimate with its planned items repeated up to a number of items. */
export function ofSize(items: number): EstimateInput {
  const planned = base.items.filter((item) => item.certainty.is === "planned");
  const grown: WorkItem[] = Array.from({ length: items }, (_, index) => ({
    ...planned[index % planned.length]!,
    id: `item-${index}`,
  }));
  return { ...base, items: grown };
}

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
  const counted = ofSize(100);
  const fixed: EstimateInput = {
    ...counted,
    items: [...counted.items, ...base.items.filter(({ certainty }) => certainty.is === "if found")],
    policy: { ...counted.policy, pricing: { is: "fixed price", confidencePercent: 80 } },
  };
  const asCounted = { floorName: "the same as counted", floor: () => estimate({ ...fixed, policy: counted.policy ?? {} }) };
  const risk: Work[] = [
    { name: "price 100 items at a fixed price", items: 100, run: () => estimate(fixed), ...asCounted },
    { name: "price 100 items and sum up their risk", items: 100, run: () => estimate(fixed, { risk: true }), ...asCounted },
  ];
  const outcome = estimate(base);
  if (!outcome.ok) throw new Error("The demo estimate does not price");
  const pdf = await pdfWork(outcome.sheet, base);
  const floorName = "the same glyphs, no layout";
  return [...pricing, ...risk, { name: "estimate PDF", items: base.items.length, floorName, run: pdf.render, floor: pdf.floor }];
}
