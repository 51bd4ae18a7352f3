import type { Hazard } from "../../estimating/input.js";
import { ownerCautionText } from "../../wording/caution.js";
import type { Block } from "../layout/block.js";
import type { Subject } from "./subject.js";

/** Solder and solvents endanger the bench, not the owner. */
const BENCH_ONLY: readonly Hazard[] = ["lead solder", "solvent vapour"];

/** What the owner should know about a unit that is dangerous inside. */
export function cautionsFor({ sheet, tongue, words }: Subject): Block[] {
  const hazards = sheet.hazards.map(({ hazard }) => hazard).filter((hazard) => !BENCH_ONLY.includes(hazard));
  return hazards.length === 0
    ? []
    : [{ is: "cautions", title: words.paper.agreement.caution, cautions: [], last: ownerCautionText(hazards, tongue) }];
}
