import type { Block } from "../layout/block.js";
import { known } from "./parties.js";
import type { Subject } from "./subject.js";

/** What the owner reported, what was found, and how the unit arrived. */
export function condition({ input: { unit } }: Subject): Block[] {
  const facts = known([
    ["Reported", unit.reported],
    ["Found", unit.found],
    ["On arrival", unit.condition],
  ]);
  return facts.length === 0
    ? []
    : [
        { is: "heading", text: "Fault and condition" },
        { is: "facts", labels: 66, facts },
      ];
}
