import demo from "../../fixtures/demo/string-organ-keyboard.json" with { type: "json" };
import type { EstimateInput, WorkItem } from "../../src/estimating/input.js";

export const base = demo as unknown as EstimateInput;

/** The demo estimate with its planned items repeated up to a number of items. */
export function ofSize(items: number): EstimateInput {
  const planned = base.items.filter((item) => item.certainty.is === "planned");
  const grown: WorkItem[] = Array.from({ length: items }, (_, index) => ({
    ...planned[index % planned.length]!,
    id: `item-${index}`,
  }));
  return { ...base, items: grown };
}
