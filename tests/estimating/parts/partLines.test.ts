/** What a line of a part says of where it comes from and why it costs that; and the parts of a job in its own words. Demo offers, by hand. */
import { describe, expect, it } from "vitest";
import type { EstimateInput, Offer, WorkItem } from "../../../src/estimating/input.js";
import { jobParts } from "../../../src/estimating/parts/jobParts.js";
import { orderList } from "../../../src/estimating/parts/orderList.js";
import { item, job, lineOf, sheet } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";

const kinds = [{ id: "film", type: "capacitor", name: "Film, 1 µF" }];
const offer: Offer = {
  ...{ id: "o", kind: "film", source: "Pindrake", on: "2026-11-20", currency: "EUR", price: 300, packSize: 3, leadDays: 4 },
  state: "new",
};
const WHOLE = { ...PLAIN, parts: { ...PLAIN.parts, packs: "whole" as const } };
const of = (items: readonly WorkItem[], given: Partial<EstimateInput> = {}) =>
  sheet({ kinds, offers: [offer], rateBook: WHOLE, items, ...given });
const replace = (id: string, part: WorkItem["part"], more: Partial<WorkItem> = {}) =>
  item(id, { operation: "replace", part: part!, ...more });
const FOOT = { own: { name: "Foot", type: "valve", cost: 350, source: "Cobbler" } } as const;

describe("a line of a part", () => {
  it("names the work, the offer, the mark-up and the packs it rests on", () => {
    const { from, amount } = lineOf(of([replace("a", { kind: "film" }), replace("b", { kind: "film" })]), "part:film");
    expect(amount).toBe(300);
    expect(from).toEqual([
      { is: "item", id: "a" },
      { is: "item", id: "b" },
      { is: "offer", id: "o", source: "Pindrake", on: "2026-11-20" },
      { is: "rate book", entry: "/parts/markUp/0" },
      { is: "rule", rule: "mark-up by unit cost" },
      { is: "rule", rule: "whole packs" },
    ]);
    // Three fill the pack.
    const three = lineOf(of([replace("a", { kind: "film" }, { count: 3 })]), "part:film");
    expect(three.from.some((source) => source.is === "rule" && source.rule === "whole packs")).toBe(false);
  });

  it("says how many packs its source sells at least, what that costs and what of it is left over", () => {
    const least = of([replace("a", { kind: "film" }, { count: 2 })], { offers: [{ ...offer, minimumPacks: 4 }] });
    expect(lineOf(least, "part:film").from.at(-1)).toEqual({ is: "minimum order", packs: 4, packSize: 3, used: 2 });
    // Four packs of 3.00; two pieces of it are 2.00.
    expect(least.warnings).toMatchObject([
      { is: "minimum order", part: "Film, 1 µF", source: "Pindrake", packs: 4, packSize: 3, used: 2, amount: 1200, unused: 1000 },
    ]);
    // Six used of two packs: nothing is bought for its source's sake; nor are four, which no fewer packs hold.
    for (const count of [6, 4])
      expect(of([replace("a", { kind: "film" }, { count })], { offers: [{ ...offer, minimumPacks: 2 }] }).warnings).toEqual([]);
  });

  it("says what another price stands in place of, why, and whose it is", () => {
    const price = { cost: 70, reason: "matched pair" };
    const why = (partPrice: WorkItem["partPrice"]) =>
      of([replace("a", { kind: "film" }, { partPrice: partPrice!, count: 2 })]).lines.find(({ sort }) => sort === "part")!;
    expect(why(price)).toMatchObject({ amount: 140 });
    expect(why(price).why).toEqual({ rule: "price of this line", catalogue: 300, per: 3, ...price });
    expect(why({ ...price, source: "Tarnbeck" }).why).toMatchObject({ source: "Tarnbeck" });
  });

  it("of a part that the owner brings costs nothing and says so", () => {
    const own = { own: { name: "Foot", type: "valve", broughtByOwner: true } } as const;
    const line = of([replace("a", own, { count: 2 })]).lines.find(({ sort }) => sort === "part")!;
    expect([line.amount, line.count, line.why]).toEqual([0, 2, { rule: "brought by the owner" }]);
    expect(line.from).toEqual([{ is: "item", id: "a" }]);
  });

  it("of pulling from a donor unit names work, offer and rate", () => {
    const pull = { ...offer, state: "donor pull", pullMinutes: 5, packSize: 1 } as const;
    const line = lineOf(of([replace("a", { kind: "film" }, { count: 2 })], { offers: [pull] }), "pull:o");
    expect([line.minutes, line.amount, line.count]).toEqual([10, 1000, 2]);
    expect(line.from).toEqual([
      { is: "item", id: "a" },
      { is: "offer", id: "o", source: "Pindrake", on: "2026-11-20" },
      { is: "rate book", entry: "/labourClasses/0" },
    ]);
  });
});

describe("the parts of a job", () => {
  const given: Partial<EstimateInput> = {
    kinds,
    rateBook: { ...PLAIN, partTypes: PLAIN.partTypes.map((type) => ({ ...type, name: `Any ${type.id}` })) },
    items: [
      item("a", { operation: "replace", part: FOOT, count: 2 }),
      item("b", { operation: "replace", part: { type: "capacitor" }, certainty: { is: "if found", probability: 0.5 } }),
      item("c", { operation: "replace", part: { type: "valve" }, certainty: { is: "if found", probability: 0.5 } }),
    ],
  };
  const parts = () => jobParts(job(given), sheet(given));

  it("are told apart by type, by the rate book's name for it, where no kind is named", () => {
    expect(parts().map(({ part: { name }, takes }) => [name, takes.map((take) => take.item)])).toEqual([
      ["Foot", ["a"]],
      ["Any capacitor", ["b"]],
      ["Any valve", ["c"]],
    ]);
  });

  it("in its own words are for it alone: listed with their source and cost, and bought from no offer", () => {
    const [foot] = parts();
    expect(foot!.own).toEqual({ source: "Cobbler", cost: 350 });
    const need = { part: foot!.part, buys: foot!.buys, own: foot!.own!, job: "J1", currency: "EUR", pieces: 2 };
    const list = orderList({
      ...{ asOf: "2026-11-20", needs: [need], offers: [offer], stock: new Map(), onOrder: new Map(), pullRatePerHour: 0 },
      scarcity: PLAIN.scarcity,
    });
    expect([list.sources, list.uncovered]).toEqual([
      [],
      [
        {
          ...{ part: foot!.part, pieces: 2, jobs: [{ job: "J1", pieces: 2 }], why: "own words" },
          own: { source: "Cobbler", cost: 350, currency: "EUR" },
        },
      ],
    ]);
  });

  it("are ordered at offers up to the very day, and none of a later one", () => {
    const need = { part: { type: "capacitor", kind: "film", name: "Film" }, buys: [], job: "J1", currency: "EUR", pieces: 2 };
    const ordered = (asOf: string) =>
      orderList({
        ...{ asOf, needs: [need], offers: [offer], stock: new Map(), onOrder: new Map(), pullRatePerHour: 0 },
        scarcity: PLAIN.scarcity,
      }).sources.length;
    expect([ordered("2026-11-19"), ordered("2026-11-20")]).toEqual([0, 1]);
  });
});
