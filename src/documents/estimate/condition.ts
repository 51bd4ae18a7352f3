import type { Block } from "../layout/block.js";
import { known } from "./parties.js";
import type { Subject } from "./subject.js";

/** What the owner reported, what was found, and how the unit arrived. */
export function condition({ input: { unit }, words: { paper } }: Subject): Block[] {
  const facts = known([
    [paper.unit.reported, unit.reported],
    [paper.unit.found, unit.found],
    [paper.unit.onArrival, unit.condition],
  ]);
  return facts.length === 0
    ? []
    : [
        { is: "heading", text: paper.unit.faultAndCondition },
        { is: "facts", labels: 66, facts },
      ];
}
