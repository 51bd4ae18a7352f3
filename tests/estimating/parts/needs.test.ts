/** Several needs of one part: what is priced together, who has the shelf, and where the pieces come from. Demo offers, by hand. */
import { describe, expect, it } from "vitest";
import type { EstimateInput, Offer } from "../../../src/estimating/input.js";
import { type PartNeed, partsPricer } from "../../../src/estimating/parts/priceParts.js";
import { item, sheet } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";
import { DIVIDER, offer, shop } from "./demoShop.js";

const need = (count: number, items: readonly string[], given: Partial<PartNeed> = {}): PartNeed => ({
  ...{ type: "divider", kind: "divider-a", count, items },
  ...given,
});
const itemsOf = (lines: ReturnType<ReturnType<typeof partsPricer>>["lines"]) =>
  lines.map(({ count, from }) => [count, from.flatMap((source) => (source.is === "item" ? [source.id] : []))]);
const stocked = (stock: number) => [{ ...DIVIDER, stock }];
const behind = { behind: true } as const;

describe("needs of one part", () => {
  it("are priced together, named by their work in order, each once", () => {
    const price = partsPricer(shop([offer("a")]));
    const { lines, pulls } = price([need(2, ["b", "c"]), need(3, ["a", "b"]), need(0, ["z"])]);
    expect(itemsOf(lines)).toEqual([[5, ["a", "b", "c", "z"]]]);
    expect([lines[0]!.amount, pulls]).toEqual([500, []]);
  });

  it("are told apart, asked again, by their count and by their work", () => {
    const price = partsPricer(shop([offer("a")]));
    const asked = [need(2, ["a"]), need(3, ["a"]), need(2, ["b"]), need(2, ["a", "b"]), need(2, ["a"])];
    expect(asked.map((one) => itemsOf(price([one]).lines)[0])).toEqual(asked.map(({ count, items }) => [count, items]));
  });

  it("have the shelf in turn, and work behind a service has it last, uncharged", () => {
    const price = partsPricer(shop([offer("a")], {}, stocked(5)));
    const given = price([need(4, ["hidden"], behind), need(3, ["charged"])]);
    expect(given.results.map(({ needed, charged, offer: from }) => [needed, charged, from])).toEqual([
      [3, 3, undefined],
      [2, 0, undefined],
      [2, 0, "a"],
    ]);
    expect(itemsOf(given.lines)).toEqual([[3, ["charged"]]]);
    // Asked for alone it has the whole shelf.
    expect(price([need(4, ["hidden"], behind)]).results.map(({ needed }) => needed)).toEqual([4]);
  });

  it("at prices of their own stay lines of their own, and take from one shelf", () => {
    const own = { price: { cost: 70, reason: "matched pair" } };
    const { results, lines } = partsPricer(shop([offer("a")], {}, stocked(3)))([need(2, ["x"], own), need(2, ["y"])]);
    expect(results.map(({ needed, offer: from }) => [needed, from])).toEqual([
      [2, undefined],
      [1, undefined],
      [1, "a"],
    ]);
    expect(lines.map(({ amount }) => amount)).toEqual([140, 100, 100]);
  });

  it("pay freight once among them, and another source's beside it", () => {
    const kinds = [DIVIDER, { ...DIVIDER, id: "divider-b", name: "Octave divider B" }];
    const offers = [
      offer("a", { source: "Pindrake", freight: 300 }),
      offer("b", { kind: "divider-b", source: "Pindrake", freight: 450 }),
    ];
    const price = partsPricer(shop(offers, {}, kinds));
    const both = () => price([need(1, ["x"]), need(1, ["y"], { kind: "divider-b" })]).freight.map(({ amount }) => amount);
    expect([both(), both()]).toEqual([[450], [450]]);
    expect(price([need(1, ["x"])]).freight.map(({ amount }) => amount)).toEqual([300]);
  });

  it("that nobody offers whole are guessed at the dearest offer there is", () => {
    const few = [100, 200, 300].map((price) => offer(`at ${price}`, { price, available: 1 }));
    const { lines, warnings } = partsPricer(shop(few))([need(5, ["x"])]);
    expect(lines.reduce((sum, { amount }) => sum + amount, 0)).toBe(100 + 200 + 3 * 300);
    expect(warnings).toMatchObject([{ is: "not enough offered", needed: 5, offered: 3 }]);
  });

  it("are warned about where a class set by hand has offers and they are too few, not where the shop keeps none", () => {
    const hand = [{ ...DIVIDER, scarcity: "to order" as const }];
    const warnings = (offers: readonly Offer[]) => partsPricer(shop(offers, {}, hand))([need(5, ["x"])]).warnings;
    expect(warnings([offer("a", { available: 3 })])).toMatchObject([{ is: "not enough offered", needed: 5, offered: 3 }]);
    expect(warnings([])).toEqual([]);
  });
});

describe("pulling a part from a donor", () => {
  const pull: Offer = {
    ...{ id: "pull", kind: "tube", source: "Donors", on: "2026-11-20", currency: "EUR", price: 100, packSize: 1, leadDays: 1 },
    ...{ state: "donor pull", pullMinutes: 10 },
  };
  const bought = (accessClass: string, dear: number) => {
    const given: Partial<EstimateInput> = {
      kinds: [{ id: "tube", type: "valve", name: "Tube", scarcity: "to order" }],
      offers: [pull, { ...pull, id: "new", source: "Pindrake", state: "new", price: dear, pullMinutes: 0 }],
      items: [1, 2].map((at) => item(`v${at}`, { operation: "replace", part: { kind: "tube" } })),
      rateBook: { ...PLAIN, accessClass },
    };
    return sheet(given).parts.map(({ offer: from, needed }) => [from, needed]);
  };

  it("is weighed at the rate of the class that opens units: ten minutes at 1.00 or at 2.00", () => {
    expect(bought("bench", 1099)).toEqual([["new", 2]]);
    expect(bought("bench", 1101)).toEqual([["pull", 2]]);
    expect(bought("alignment", 2099)).toEqual([["new", 2]]);
    expect(bought("alignment", 2101)).toEqual([["pull", 2]]);
  });
});
