/** What may be found, against every set of it planned: what a job costs on average, at its least and at its most. Times are certain and units all alike, so each set has one price. */
import { describe, expect, it } from "vitest";
import type { EstimateInput, RateBook, WorkItem } from "../../../src/estimating/input.js";
import { item, job } from "../cast/organ.js";
import { asked, sum } from "./asked.js";
import { BOOKS, EXACT, given, is, PLANNED, replace, SHARES } from "./shares.js";

type Work = readonly [readonly WorkItem[], readonly WorkItem[], Partial<EstimateInput>?];

const CHANCES = [0.5, 0.3, 0.4];

/** Shared beyond what all prices have to do with: boards counted, parts hard to get, work sold below what its time is worth. */
const MORE: Readonly<Record<string, Work>> = {
  "a set-up on each of three counted boards": [
    [item("a")],
    [item("f", { count: 3 }), item("g", { operation: "soak" })],
    { boards: [{ size: "small", mounting: "on top", count: 3 }] },
  ],
  "set-ups on two boards, both set up already": [
    [item("a", { count: 2 })],
    [item("f"), item("g", { operation: "soak" })],
    { boards: [{ size: "small", mounting: "on top", count: 2 }] },
  ],
  "a set-up on two boards that none is for yet, in a worn unit": [
    [item("a", { operation: "adjust" })],
    [item("f", { count: 3 }), item("g", { operation: "soak" })],
    {
      boards: [{ size: "small", mounting: "on top", count: 2 }],
      unit: { maker: "Threnwick", model: "Cadence 3", grade: "worn" },
    },
  ],
  "on a board, where others are counted": [
    [item("a")],
    [item("f", { assembly: "board", count: 3 }), item("g", { assembly: "panel", count: 2 })],
    { boards: [{ size: "small", mounting: "on top", count: 3 }] },
  ],
  "a scarce part that is surely good": [
    [replace("a", { part: { kind: "coil" } })],
    [replace("f", { part: { kind: "coil" }, count: 2 }), item("g")],
    { kinds: given.kinds.map((kind) => ({ ...kind, scarcity: "scarce" })) },
  ],
  "a scarce part that nobody offers": [
    [item("a")],
    [replace("f", { part: { kind: "coil" }, count: 2 }), item("g")],
    { kinds: given.kinds.map((kind) => ({ ...kind, scarcity: "scarce" })), offers: [] },
  ],
  "work sold for less than its time is worth": [
    [item("a"), { id: "b", own: { name: "Mend", price: 300, minutes: is(9) }, count: 1, certainty: PLANNED }],
    [
      { id: "f", own: { name: "Polish", price: 200, minutes: is(5) }, count: 2, certainty: PLANNED },
      { id: "g", own: { name: "Glue", price: 100, minutes: is(2) }, count: 1, certainty: PLANNED },
    ],
  ],
  "freight of one source, each time of another height": [
    [item("a")],
    [replace("f", { part: { kind: "coil" } }), replace("g", { part: { kind: "ring" } })],
    {
      kinds: [...given.kinds, { id: "ring", type: "capacitor", name: "Ring" }],
      offers: [...given.offers, { ...given.offers[2], id: "r", kind: "ring", freight: 800 }],
    },
  ],
  "freight beyond what is paid": [
    [replace("a", { part: { kind: "coil" } })],
    [replace("f", { part: { kind: "ring" } }), item("g")],
    {
      kinds: [...given.kinds, { id: "ring", type: "capacitor", name: "Ring" }],
      offers: [...given.offers, { ...given.offers[2], id: "r", kind: "ring", freight: 800 }],
    },
  ],
  "scarce parts of one source, paid freight once": [
    [replace("a", { part: { kind: "coil" } })],
    [replace("f", { part: { kind: "ring" } }), item("g")],
    {
      kinds: [...given.kinds, { id: "ring", type: "capacitor", name: "Ring" }].map((kind) => ({ ...kind, scarcity: "scarce" })),
      offers: [...given.offers, { ...given.offers[2], id: "r", kind: "ring", freight: 800 }],
    },
  ],
  "a part pulled from a donor unit": [
    [item("a")],
    [replace("f", { part: { kind: "coil" }, count: 2 }), item("g")],
    { offers: given.offers.map((offer) => ({ ...offer, state: "donor pull", pullMinutes: 3, shareGood: 1 })) },
  ],
};

const risk = (
  [first, more, rest]: Work,
  found: (at: number) => WorkItem["certainty"] | undefined,
  rateBook: RateBook,
  policy = {},
) => {
  const items = more.flatMap((each, at) => {
    const certainty = found(at);
    return certainty ? [{ ...each, certainty }] : [];
  });
  return asked(job({ ...given, ...rest, items: [...first, ...items], rateBook, policy })).risk;
};

/** Of every set of the work: its chance, and what it comes to. */
function setsOf(work: Work, rateBook: RateBook, policy = {}) {
  const [, { length }] = work;
  return Array.from({ length: 2 ** length }, (_, set) => {
    const has = (at: number) => ((set >> at) & 1) === 1;
    const chance = Array.from({ length }, (__, at) => (has(at) ? CHANCES[at]! : 1 - CHANCES[at]!)).reduce((a, b) => a * b);
    return { chance, cost: risk(work, (at) => (has(at) ? PLANNED : undefined), rateBook, policy).expected };
  });
}

const all = Object.entries<Work>({ ...SHARES, ...MORE });

describe.each(Object.entries(BOOKS))(
  "charged %s, what may be found is on average what its sets come to",
  (_, [rules, policy]) => {
    it.each(all)("%s", (__, work) => {
      const book: RateBook = { ...EXACT, ...rules, risk: "shared" };
      const sets = setsOf(work, book, policy);
      const found = risk(work, (at) => ({ is: "if found", probability: CHANCES[at]! }), book, policy);
      const mean = sum(sets.map(({ chance, cost }) => chance * cost));
      expect(Math.abs(found.expected - mean)).toBeLessThanOrEqual(2);
      const costs = sets.map(({ cost }) => cost).sort((a, b) => a - b);
      expect(Math.abs(found.p10 - costs[0]!)).toBeLessThanOrEqual(3);
      expect(Math.abs(found.p95 - costs.at(-1)!)).toBeLessThanOrEqual(3);
    });
  },
);

it("of ten faults of five minutes, charged by the quarter hour, expects what the chances of each number of them come to", () => {
  const operations = EXACT.operations.map((each) => ({ ...each, setup: is(0) }));
  const fault = (at: number) => item(`f${at}`, { minutes: is(5), certainty: { is: "if found", probability: 0.5 } });
  const faults = Array.from({ length: 10 }, (_, at) => fault(at));
  const rateBook: RateBook = { ...EXACT, operations, risk: "shared", billing: { incrementMinutes: 15, minimumCharge: 0 } };
  const { expected } = asked(job({ items: [item("a", { minutes: is(5) }), ...faults], rateBook })).risk;
  // Of 1024 cases none to two of ten are found in 1 + 10 + 45 and fill one quarter hour with the 5 minutes planned, three to five in 120 + 210 + 252 two,
  // six to eight in 210 + 120 + 45 three, and nine or ten in 10 + 1 four.
  const mean = (1500 * (1 * 56 + 2 * 582 + 3 * 375 + 4 * 11)) / 1024;
  // So many sets are weighed by a sample of them.
  expect(Math.abs(expected / mean - 1)).toBeLessThan(0.02);
});
