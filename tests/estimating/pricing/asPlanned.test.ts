/** Work that is all but certain to be found, in units all alike and with certain times, has to cost what the same work costs planned: whatever it shares with other work. */
import { describe, expect, it } from "vitest";
import type { EstimateInput, Offer, Policy, RateBook, WorkItem } from "../../../src/estimating/input.js";
import { type Bought, planner } from "../../../src/estimating/pricing/buyPlans.js";
import { assembly, item, job } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";
import { asked, fixed, netOf } from "./asked.js";

const is = (minutes: number) => ({ low: minutes, likely: minutes, high: minutes });
const EXACT: RateBook = {
  ...PLAIN,
  grades: PLAIN.grades.map((grade) => ({ ...grade, spreadPercent: 0 })),
  operations: PLAIN.operations.map((each) => ({ ...each, setup: is(each.setup.likely), unit: is(each.unit.likely) })),
  fasteners: PLAIN.fasteners.map((each) => ({ ...each, remove: is(each.remove.likely), refit: is(each.refit.likely) })),
  accessStandards: PLAIN.accessStandards.map((each) => ({ ...each, remove: is(3), refit: is(4) })),
  leads: { ...PLAIN.leads, ...{ desolder: is(0.1), clear: is(0.1), fit: is(0.1), solder: is(0.1), inspect: is(0.1) } },
  partTypes: PLAIN.partTypes.map((type) => ({ ...type, ...(type.minutes && { minutes: is(1) }) })),
};
const offered: Offer = {
  ...{ id: "o", kind: "cap", source: "Pindrake", on: "2026-11-20", currency: "EUR", price: 240, packSize: 2, leadDays: 4 },
  ...{ state: "new", freight: 300 },
};
const given = {
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
const PLANNED = { is: "planned" } as const;
const SURE = { is: "if found", probability: 1 - 1e-7 } as const;
const replace = (id: string, more: Partial<WorkItem>) => item(id, { operation: "replace", ...more });
/** By what is shared: planned work, and work that may be found beside it. */
const SHARES: Readonly<Record<string, readonly [readonly WorkItem[], readonly WorkItem[]]>> = {
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
const BOOKS: Readonly<Record<string, readonly [Partial<RateBook>, Policy?]>> = {
  "to the minute": [{}],
  "in steps of a quarter hour": [{ billing: { incrementMinutes: 15, minimumCharge: 0 } }],
  "for 60.00 at least": [{ billing: { incrementMinutes: 0, minimumCharge: 6000 } }],
  "with sundries up to 4.00": [{ parts: { ...PLAIN.parts, sundries: { percentOfParts: 10, percentOfLabour: 5, cap: 400 } } }],
  "with mark-up by bands": [{ parts: { ...PLAIN.parts, packs: "whole", markUp: [{ upTo: 150, percent: 60 }, { percent: 20 }] } }],
  "less 5.00, in a rush": [{}, { discount: { amount: 500, reason: "regular" }, rush: true }],
};
const price = (
  found: WorkItem["certainty"],
  [first, more]: readonly [readonly WorkItem[], readonly WorkItem[]],
  book: RateBook,
  policy?: Policy,
) =>
  netOf(
    asked(
      job({
        ...given,
        items: [...first, ...more.map((each) => ({ ...each, certainty: found }))],
        rateBook: book,
        ...(policy && { policy }),
      }),
      fixed(80),
    ),
  );

describe.each(Object.entries(BOOKS))("charged %s, what may be found beside", (_, [rules, policy]) => {
  it.each(Object.entries(SHARES))("%s", (__, work) => {
    const book = { ...EXACT, ...rules, risk: "shared" } as const;
    expect(Math.abs(price(SURE, work, book, policy) - price(PLANNED, work, book, policy))).toBeLessThanOrEqual(2);
  });
});

describe("where a book shares no risk", () => {
  it.each(Object.entries(SHARES))("one fault alone costs what it costs planned: %s", (_, [first, [fault]]) => {
    const work = [first, [fault!]] as const;
    expect(Math.abs(price(SURE, work, EXACT) - price(PLANNED, work, EXACT))).toBeLessThanOrEqual(2);
  });

  it.each(["each", "shared"] as const)("and a scarce part of it has its buy plan, no margin beside (%s)", (risk) => {
    const kinds = given.kinds.map((kind) => ({ ...kind, scarcity: "scarce" as const }));
    const of = (certainty: WorkItem["certainty"]) =>
      netOf(
        asked(
          job({
            ...given,
            kinds,
            items: [item("a"), replace("f", { part: { kind: "coil" }, certainty })],
            rateBook: { ...EXACT, risk },
          }),
          fixed(80),
        ),
      );
    expect(Math.abs(of(SURE) - of(PLANNED))).toBeLessThanOrEqual(2);
  });

  it.each(["each", "shared"] as const)("a soak takes no longer in a worse unit (%s)", (risk) => {
    const book = { ...EXACT, grades: PLAIN.grades, risk };
    const soak = item("f", { operation: "soak", count: 2 });
    const of = (certainty: WorkItem["certainty"]): EstimateInput =>
      job({ items: [{ ...soak, certainty }, item("g", { operation: "soak" })], rateBook: book });
    expect(Math.abs(netOf(asked(of(SURE), fixed(95))) - netOf(asked(of(PLANNED), fixed(95))))).toBeLessThanOrEqual(2);
  });
});

it("a second plan for a part has what the first left of it, and pays no freight again", () => {
  const offers = [
    { ...offered, id: "cheap", price: 100, packSize: 1, available: 3 },
    { ...offered, id: "dear", source: "Quillmere", price: 500, packSize: 1, freight: 50 },
  ];
  const input = job({ kinds: given.kinds, offers });
  const bought: Bought = {
    ...{ kind: given.kinds[0], part: { type: "capacitor", kind: "cap", name: "Cap" }, pieces: 2, cost: 200 },
    ...{ scarcity: "scarce" as const, offers: ["cheap"] },
  };
  const purse = { paid: new Map<string, number>(), taken: new Map<string, number>() };
  const plans = [bought, bought].flatMap((each) => planner(input)([each], purse));
  expect(plans.map(({ plan }) => [plan.buys.map(({ offer, pieces }) => [offer, pieces]), plan.freight])).toEqual([
    [[["cheap", 2]], 300],
    [
      [
        ["cheap", 1],
        ["dear", 1],
      ],
      50,
    ],
  ]);
  expect([...purse.paid, ...purse.taken]).toEqual([
    ["Pindrake", 300],
    ["Quillmere", 50],
    ["cheap", 3],
    ["dear", 1],
  ]);
});
