/** Books without a doubt in them, and work that may be found beside planned work, by what the two share. */
import type { Offer, Policy, RateBook, WorkItem } from "../../../src/estimating/input.js";
import { assembly, item } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";

export const is = (minutes: number) => ({ low: minutes, likely: minutes, high: minutes });
export const EXACT: RateBook = {
  ...PLAIN,
  grades: PLAIN.grades.map((grade) => ({ ...grade, spreadPercent: 0 })),
  operations: PLAIN.operations.map((each) => ({ ...each, setup: is(each.setup.likely), unit: is(each.unit.likely) })),
  fasteners: PLAIN.fasteners.map((each) => ({ ...each, remove: is(each.remove.likely), refit: is(each.refit.likely) })),
  accessStandards: PLAIN.accessStandards.map((each) => ({ ...each, remove: is(3), refit: is(4) })),
  leads: { ...PLAIN.leads, ...{ desolder: is(0.1), clear: is(0.1), fit: is(0.1), solder: is(0.1), inspect: is(0.1) } },
  partTypes: PLAIN.partTypes.map((type) => ({ ...type, ...(type.minutes && { minutes: is(1) }) })),
};
export const offered: Offer = {
  ...{ id: "o", kind: "cap", source: "Pindrake", on: "2026-11-20", currency: "EUR", price: 240, packSize: 2, leadDays: 4 },
  ...{ state: "new", freight: 300 },
};
export const given = {
  map: { assemblies: [assembly("panel", {}, 5), assembly("board", { behind: ["panel"] }, 2)] },
  kinds: [
    { id: "cap", type: "capacitor", name: "Cap" },
    { id: "coil", type: "capacitor", name: "Coil" },
  ],
  offers: [
    offered,
    { ...offered, id: "p", source: "Quillmere", price: 200, freight: 700 },
    { ...offered, id: "q", kind: "coil", price: 900, packSize: 1 },
  ],
} as const;
export const PLANNED = { is: "planned" } as const;
export const replace = (id: string, more: Partial<WorkItem>) => item(id, { operation: "replace", ...more });
/** By what is shared: planned work, and work that may be found beside it. */
export const SHARES: Readonly<Record<string, readonly [readonly WorkItem[], readonly WorkItem[]]>> = {
  "a set-up that is done already": [[item("a")], [item("f"), item("g", { operation: "adjust" })]],
  "a set-up that one of them brings": [[item("a", { operation: "adjust" })], [item("f"), item("g", { count: 3 })]],
  "a panel that neither has opened": [
    [item("a")],
    [item("f", { assembly: "board" }), item("g", { assembly: "panel", count: 2 })],
  ],
  "a panel that is open": [
    [item("a", { assembly: "panel" })],
    [item("f", { assembly: "board" }), item("g", { assembly: "board" })],
  ],
  "packs and freight of a part": [
    [replace("a", { part: { kind: "cap" }, count: 3 })],
    [replace("f", { part: { kind: "cap" } }), replace("g", { part: { kind: "coil" } })],
  ],
  "freight that one of them brings": [
    [item("a")],
    [replace("f", { part: { kind: "coil" } }), replace("g", { part: { kind: "coil" }, count: 2 })],
  ],
  "parts by type and in own words": [
    [replace("a", { part: { type: "capacitor" }, count: 2 })],
    [
      replace("f", { part: { type: "capacitor" } }),
      replace("g", { part: { own: { name: "Foot", type: "valve", cost: 350 } }, count: 2 }),
      replace("h", { part: { type: "valve" }, partPrice: { cost: 90, reason: "matched" } }),
    ],
  ],
  "work at a price of its own": [
    [item("a"), { id: "b", own: { name: "Mend", price: 700 }, count: 1, certainty: PLANNED }],
    [
      { id: "f", own: { name: "Polish", price: 1900 }, count: 2, certainty: PLANNED },
      { id: "g", own: { name: "Glue", price: 300, minutes: is(2) }, count: 1, certainty: PLANNED },
    ],
  ],
  "a soak beside the bench": [[item("a")], [item("f", { operation: "soak", count: 2 }), item("g", { operation: "soak" })]],
};
export const BOOKS: Readonly<Record<string, readonly [Partial<RateBook>, Policy?]>> = {
  "to the minute": [{}],
  "in steps of a quarter hour": [{ billing: { incrementMinutes: 15, minimumCharge: 0 } }],
  "for 60.00 at least": [{ billing: { incrementMinutes: 0, minimumCharge: 6000 } }],
  "with sundries up to 4.00": [{ parts: { ...PLAIN.parts, sundries: { percentOfParts: 10, percentOfLabour: 5, cap: 400 } } }],
  "with mark-up by bands": [{ parts: { ...PLAIN.parts, packs: "whole", markUp: [{ upTo: 150, percent: 60 }, { percent: 20 }] } }],
  "less 5.00, in a rush": [{}, { discount: { amount: 500, reason: "regular" }, rush: true }],
};
