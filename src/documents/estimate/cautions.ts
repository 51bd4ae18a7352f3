import { ownerCautionText } from "../../wording/index.js";
import type { Block } from "../layout/block.js";
import type { Subject } from "./subject.js";

/** What the owner should know about a unit that is dangerous inside. */
export function cautionsFor({ sheet: { hazards } }: Subject): Block[] {
  if (hazards.length === 0) return [];
  return [{ is: "cautions", title: "Caution", cautions: [], last: ownerCautionText(hazards.map(({ hazard }) => hazard)) }];
}
