import { describe, expect, it } from "vitest";
import type { Certainty, EstimateInput, WorthDoing } from "../../../src/estimating/input.js";
import { ORGAN, on, sheet } from "../cast/organ.js";
import { PLAIN, TAXED } from "../cast/plainBook.js";

const maybe = (probability: number, group?: string): Certainty => ({
  is: "if found",
  probability,
  ...(group !== undefined && { group }),
});
const option = (chosen: boolean, group?: string): Certainty => ({
  is: "optional",
  chosen,
  ...(group !== undefined && { group }),
});
const total = (given: Partial<EstimateInput>) => sheet(given).totals.total;

describe("an option", () => {
  it("behind a panel that is open anyway costs its own work only", () => {
    const items = [on("low", "a"), on("low", "b", { operation: "adjust", certainty: option(false) })];
    // Adjusting: 15 minutes at 2.00.
    expect(sheet({ items }).options).toMatchObject([{ id: "b", price: 3000, minutes: 15, chosen: false }]);
  });

  it("that opens the unit by itself costs its access too", () => {
    const items = [on("low", "a"), on("rail", "b", { certainty: option(false) })];
    expect(sheet({ items }).options).toMatchObject([{ price: 2100 + 700, minutes: 28 }]);
  });

  it("that is chosen is in the total, and its price is what leaving it out would save", () => {
    const items = [on("low", "a"), on("rail", "b", { certainty: option(true) })];
    const [chosen] = sheet({ items }).options;
    expect(chosen).toMatchObject({ chosen: true, price: 2800 });
    expect(total({ items })).toBe(total({ items: items.slice(0, 1) }) + 2800);
  });

  it("shares access with another: each is cheap beside the other, the two together are not the sum", () => {
    const two = (first: boolean, second: boolean) => [
      on("rail", "a", { certainty: option(first) }),
      on("rail", "b", { operation: "adjust", certainty: option(second) }),
    ];
    const prices = (first: boolean, second: boolean) => sheet({ items: two(first, second) }).options.map(({ price }) => price);
    expect(prices(false, false)).toEqual([2800, 5100]);
    expect(prices(true, true)).toEqual([700, 3000]);
    expect(total({ items: two(true, true) })).toBe(2100 + 700 + 3000);
  });

  it("of several items is one price", () => {
    const items = [
      on("rail", "a", { certainty: option(false, "new rail"), count: 3, operation: "replace", part: { type: "valve" } }),
      on("low", "b"),
      on("rail", "c", { certainty: option(false, "new rail"), reason: "the old one is worn" }),
    ];
    expect(sheet({ items }).options).toEqual([
      {
        id: "new rail",
        items: ["a", "c"],
        names: ["Rail: replace, valve × 3", "Rail: clean"],
        reason: "the old one is worn",
        chosen: false,
        // Access 21, replacing 8 + 3 x 3, three valves of 10, cleaning 7.
        price: 2100 + 1700 + 30 + 700,
        net: 2100 + 1700 + 30 + 700,
        minutes: 45,
      },
    ]);
  });

  it("lists its items of no count too, as they are chosen together; a group of only those is none", () => {
    const items = [
      on("rail", "a", { certainty: option(false, "new rail") }),
      on("low", "b", { certainty: option(false, "new rail"), count: 0 }),
      on("low", "c", { certainty: option(false), count: 0 }),
    ];
    expect(sheet({ items }).options).toMatchObject([{ items: ["a", "b"], names: ["Rail: clean"], price: 2800 }]);
  });

  it("keeps apart an item and a group of the same name", () => {
    const items = [on("rail", "x", { certainty: option(false) }), on("low", "y", { certainty: option(false, "x") })];
    expect(sheet({ items }).options.map(({ items }) => items)).toEqual([["x"], ["y"]]);
  });

  it("bears its share of steps, of the minimum charge, of tax", () => {
    const items = [on("rail", "a"), on("rail", "b", { operation: "clean", certainty: option(false) })];
    const stepped = { ...PLAIN, billing: { incrementMinutes: 30, minimumCharge: 0 } };
    expect(sheet({ items, rateBook: stepped }).options[0]!.price).toBe(3000);
    expect(
      sheet({ items, rateBook: { ...PLAIN, billing: { incrementMinutes: 0, minimumCharge: 9000 } } }).options[0]!.price,
    ).toBe(0);
    expect(sheet({ items, rateBook: TAXED }).options[0]).toMatchObject({ price: 360, net: 300 });
  });

  it("bears its access from what is open already", () => {
    const items = [on("rail", "b", { certainty: option(false) })];
    expect(sheet({ items, alreadyOpen: ["rail"] }).options[0]!.price).toBe(700);
  });
});

describe("work that may be found", () => {
  it("is not in the total, and priced on top of it", () => {
    const items = [on("rail", "a"), on("rail", "b", { operation: "adjust", certainty: maybe(0.25) })];
    const result = sheet({ items });
    expect(result.totals.total).toBe(2800);
    expect(result.ifFound).toMatchObject([{ id: "b", probability: 0.25, price: 3000 }]);
    expect(result.options).toEqual([]);
  });

  it("turns up group by group, each priced without the others", () => {
    const items = [
      on("rail", "a", { certainty: maybe(0.5, "spill") }),
      on("low", "b", { certainty: maybe(0.5, "spill") }),
      on("low", "c", { certainty: maybe(0.1) }),
    ];
    expect(sheet({ items }).ifFound).toMatchObject([
      { id: "spill", items: ["a", "b"], price: 2100 + 700 + 2100 + 700 },
      { id: "c", price: 2100 + 700 },
    ]);
  });
});

describe("work worth doing while it is open", () => {
  const thought: WorthDoing = { operation: "adjust", count: 2, reason: "it drifts" };
  const organ = (...worthDoing: WorthDoing[]) => ({
    assemblies: ORGAN.map((each) => (each.id === "low" ? { ...each, worthDoing } : each)),
  });

  it("costs its own set-up and work now, and the opening as well at a later visit", () => {
    expect(sheet({ map: organ(thought), items: [on("low", "a")] }).suggestions).toEqual([
      {
        assembly: { id: "low", name: "Low" },
        operation: { id: "adjust", name: "adjust" },
        count: 2,
        reason: "it drifts",
        now: 5000,
        later: 2100 + 5000,
      },
    ]);
  });

  it("is not priced at a later visit with what belongs to this one", () => {
    const policy = { diagnosis: true, rush: true, storageDays: 3, discount: { percent: 50, reason: "goodwill" } };
    const [suggestion] = sheet({ map: organ(thought), items: [on("low", "a")], policy, toOpen: ["rail"] }).suggestions;
    expect(suggestion).toMatchObject({ now: 2500 + 1250, later: 7100 });
  });

  it("pays the least charge at a later visit", () => {
    const rateBook = { ...PLAIN, billing: { incrementMinutes: 0, minimumCharge: 9000 } };
    expect(sheet({ map: organ(thought), items: [on("low", "a")], rateBook }).suggestions).toMatchObject([{ later: 9000 }]);
  });

  it("takes the part along", () => {
    const valves: WorthDoing = { operation: "replace", count: 4, partType: "valve", reason: "weak" };
    expect(sheet({ map: organ(valves), items: [on("low", "a")] }).suggestions).toMatchObject([
      { partType: "valve", now: 800 + 4 * 300 + 40 },
    ]);
  });

  it("is thought of for what is open already, and not for what stays closed", () => {
    expect(sheet({ map: organ(thought), items: [], alreadyOpen: ["low"] }).suggestions).toMatchObject([
      { now: 5000, later: 7100 },
    ]);
    expect(sheet({ map: organ(thought), items: [on("rail")] }).suggestions).toEqual([]);
  });

  it("is not thought of when it is an item already, whatever its certainty", () => {
    const items = [on("low", "a"), on("low", "b", { operation: "adjust", certainty: maybe(0.1) })];
    expect(sheet({ map: organ(thought), items }).suggestions).toEqual([]);
  });

  it("is thought of when only another part is replaced there", () => {
    const valves: WorthDoing = { operation: "replace", count: 4, partType: "valve", reason: "weak" };
    const replaced = (type: string) => [on("low", "a", { operation: "replace", part: { type } })];
    expect(sheet({ map: organ(valves), items: replaced("capacitor") }).suggestions).toHaveLength(1);
    expect(sheet({ map: organ(valves), items: replaced("valve") }).suggestions).toEqual([]);
  });

  it("of no count is no suggestion", () => {
    expect(sheet({ map: organ({ ...thought, count: 0 }), items: [on("low", "a")] }).suggestions).toEqual([]);
  });
});
