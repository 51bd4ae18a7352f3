/** Work that is all but certain to be found, in units all alike and with certain times, has to cost what the same work costs planned: whatever it shares with other work. */
import { describe, expect, it } from "vitest";
import type { EstimateInput, Policy, RateBook, WorkItem } from "../../../src/estimating/input.js";
import { type Bought, planner } from "../../../src/estimating/pricing/buyPlans.js";
import { item, job } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";
import { asked, fixed, netOf } from "./asked.js";
import { BOOKS, EXACT, given, offered, PLANNED, replace, SHARES } from "./shares.js";

const SURE = { is: "if found", probability: 1 - 1e-7 } as const;
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
