/** The keyboard's job a week on: one fault more, one count corrected, work dropped, possible work that proved necessary, an option taken up (demo). */
import type { EstimateInput, WorkItem } from "../../../src/estimating/input.js";
import { KEYBOARD, priced } from "./cast.js";

const EXTRA: readonly WorkItem[] = [
  {
    id: "x1",
    assembly: "transformer",
    operation: "reflow",
    count: 6,
    certainty: { is: "planned" },
    reason: "cracked joints at the transformer lugs",
  },
  {
    id: "x2",
    assembly: "divider-2",
    operation: "reflow",
    count: 3,
    certainty: { is: "if found", probability: 0.4 },
    reason: "the track may be cracked further",
  },
];

const changed = (item: WorkItem): WorkItem[] => {
  if (item.id === "w34") return [];
  if (item.id === "w08") return [{ ...item, count: 5 }];
  if (item.id === "w06") return [{ ...item, certainty: { is: "planned" } }];
  if (item.certainty.is === "optional" && item.id === "w36") return [{ ...item, certainty: { ...item.certainty, chosen: true } }];
  return [item];
};

export const REVISED: EstimateInput = {
  ...KEYBOARD,
  unit: { ...KEYBOARD.unit, found: `${KEYBOARD.unit.found} The middle divider board has a cracked track.` },
  items: [...KEYBOARD.items.flatMap(changed), ...EXTRA],
  policy: { ...KEYBOARD.policy, discount: { percent: 5, reason: "for your patience" } },
  paperwork: {
    ...KEYBOARD.paperwork,
    revision: 2,
    date: "2026-12-02",
    whyChanged: { w34: "the owner keeps the jacks as they are", w08: "two more under the heat sink" },
  },
};

export const EARLIER = {
  input: KEYBOARD,
  sheet: priced(KEYBOARD),
  number: "J-2026-0001",
  revision: 1,
  date: "2026-11-25",
} as const;
