import { cautionAlone, DEFER } from "../../wording/caution.js";
import { capital, listed } from "../../wording/list.js";
import type { Subject } from "../estimate/subject.js";
import type { Block } from "../layout/block.js";

/** The usual cautions, before anything else. They never keep a sheet from being printed. */
export function benchCautions({ sheet: { hazards } }: Subject): Block[] {
  if (hazards.length === 0) return [];
  const cautions = hazards.map(({ hazard, from }) => ({
    label: capital(hazard),
    value: cautionAlone(hazard),
    note: listed(from),
  }));
  return [{ is: "cautions", title: "Before you open it", cautions, last: DEFER }];
}
