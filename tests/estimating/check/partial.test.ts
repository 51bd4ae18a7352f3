import { describe, expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { assembly, item, job, ORGAN, on, sheet } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";

const refused = (given: Partial<EstimateInput>) => {
  const outcome = estimate(job(given));
  if (outcome.ok) throw new Error("Nothing was refused.");
  return outcome;
};

describe("what can still be priced", () => {
  const good = on("rail", "a");

  it("is the rest, when single items are to blame", () => {
    const { problems, partial } = refused({
      items: [good, on("low", "b", { count: -2 }), on("attic", "c"), item("a"), item("d", { operation: "polish" })],
    });
    expect(problems.map(({ name, pointer }) => [name, pointer])).toEqual([
      ["count negative", "/items/1/count"],
      ["assembly unknown", "/items/2/assembly"],
      ["operation unknown", "/items/4/operation"],
      ["id repeated", "/items/3/id"],
    ]);
    expect(partial).toEqual(sheet({ items: [good] }));
  });

  it("is the rest, when a row of boards, an offer, an open assembly or a term is to blame", () => {
    const offer = {
      id: "o",
      kind: "cap",
      source: "Pindrake",
      on: "2026-11-01",
      currency: "EUR",
      price: 10,
      packSize: 0,
      leadDays: 1,
      state: "new",
    } as const;
    const { problems, partial } = refused({
      items: [good],
      boards: [
        { size: "small", mounting: "on top", count: 1.5 },
        { size: "small", mounting: "on top", count: 1 },
      ],
      kinds: [{ id: "cap", type: "capacitor", name: "Cap" }],
      offers: [offer, { ...offer, id: "p", packSize: 1 }],
      alreadyOpen: ["attic", "back"],
      toOpen: ["cellar"],
      policy: { prepaid: -1, rush: true },
    });
    expect(problems.map(({ pointer }) => pointer)).toEqual([
      "/alreadyOpen/0",
      "/toOpen/0",
      "/boards/0/count",
      "/offers/0/packSize",
      "/policy/prepaid",
    ]);
    expect(partial).toEqual(
      sheet({
        items: [good],
        boards: [{ size: "small", mounting: "on top", count: 1 }],
        alreadyOpen: ["back"],
        policy: { rush: true },
      }),
    );
  });

  it("keeps what is offered in its own currency when an exchange rate is to blame", () => {
    const near = { id: "near", kind: "cap", source: "Pindrake", on: "2026-11-01", currency: "EUR", price: 70 } as const;
    const offers = [near, { ...near, id: "far", currency: "JPY", price: 5 }].map((each) => {
      return { ...each, packSize: 1, leadDays: 1, state: "new" } as const;
    });
    const given = {
      items: [item("a", { operation: "replace", part: { kind: "cap" } })],
      kinds: [{ id: "cap", type: "capacitor", name: "Cap" }],
    };
    const exchange = [{ currency: "JPY", rate: "much", on: "2026-11-20", source: "bank" }];
    const { problems, partial } = refused({ ...given, offers, exchange });
    expect(problems.map(({ pointer }) => pointer)).toEqual(["/exchange/0/rate"]);
    expect(partial!.totals).toEqual(sheet({ ...given, offers: [offers[0]!] }).totals);
  });

  it("is nothing, when the rate book, the map, the unit, the currency or the day is to blame", () => {
    expect(refused({ rateBook: { ...PLAIN, accessClass: "ghost" } })).not.toHaveProperty("partial");
    expect(refused({ map: { assemblies: [assembly("a", { behind: ["a"] })] } })).not.toHaveProperty("partial");
    expect(refused({ unit: { maker: "", model: "", grade: "pristine" } })).not.toHaveProperty("partial");
    expect(refused({ currency: "XXX" })).not.toHaveProperty("partial");
    expect(refused({ asOf: "2026-02-30" })).not.toHaveProperty("partial");
  });

  it("is nothing, when an item and the rate book are to blame together", () => {
    const rateBook = { ...PLAIN, validityDays: -1 };
    expect(refused({ rateBook, items: [item("a", { count: Number.NaN })] })).not.toHaveProperty("partial");
  });

  it("is nothing, when what is left would be wrong too", () => {
    const huge = (id: string) => item(id, { minutes: { low: 0, likely: 100_000, high: 100_000 }, count: 10_000 });
    const { problems, partial } = refused({
      rateBook: { ...PLAIN, labourClasses: PLAIN.labourClasses.map((each) => ({ ...each, ratePerHour: 1_000_000 })) },
      items: [huge("a"), item("b", { count: -1 })],
    });
    expect(problems).toMatchObject([{ name: "count negative" }]);
    expect(partial).toBeUndefined();
  });
});

describe("limits", () => {
  const many = (count: number) => Array.from({ length: count }, (_, i) => item(`i${i}`));
  const assemblies = (count: number) => Array.from({ length: count }, (_, i) => assembly(`a${i}`));

  it("are 60 assemblies, counted boards among them", () => {
    expect(sheet({ map: { assemblies: assemblies(60) } }).access.removal).toEqual([]);
    expect(refused({ map: { assemblies: assemblies(61) } }).problems).toEqual([
      { name: "too many assemblies", count: 61, limit: 60, pointer: "/map/assemblies" },
    ]);
    const boards = [30, 31].map((count) => ({ size: "small", mounting: "on top", count }) as const);
    expect(refused({ boards, map: { assemblies: [] } }).problems).toEqual([
      { name: "too many assemblies", count: 61, limit: 60, pointer: "/boards" },
    ]);
    expect(refused({ boards: [{ ...boards[0]!, count: 61 }] }).problems).toMatchObject([{ name: "count too large", limit: 60 }]);
  });

  it("are 2,000 work items, 200 choices, and 200 works that are only worth doing", () => {
    expect(sheet({ items: many(2000) }).lines).toHaveLength(2000);
    expect(refused({ items: many(2001) }).problems).toEqual([
      { name: "too many items", count: 2001, limit: 2000, pointer: "/items" },
    ]);
    const options = many(201).map((each) => ({ ...each, certainty: { is: "optional", chosen: false } }) as const);
    expect(sheet({ items: options.slice(1) }).options).toHaveLength(200);
    expect(refused({ items: options }).problems).toEqual([
      { name: "too many choices", what: "option or if found", count: 201, limit: 200, pointer: "/items" },
    ]);
    const worthDoing = Array.from({ length: 201 }, () => ({ operation: "clean", count: 1, reason: "while it is open" }));
    expect(refused({ map: { assemblies: [assembly("a", { worthDoing })] } }).problems).toMatchObject([
      { name: "too many choices", what: "worth doing" },
    ]);
  });

  it("are fewer choices the more work there is, where each is weighed among all of it: 100 among 120, 30 among 400", () => {
    const rateBook = { ...PLAIN, risk: "shared" as const };
    const options = (works: number, count: number) =>
      many(works).map((each, at) => (at < count ? { ...each, certainty: { is: "optional", chosen: false } as const } : each));
    const name = "too many choices";
    for (const [works, limit, items] of [
      [120, 100, undefined],
      [400, 30, 400],
    ] as const) {
      expect(sheet({ items: options(works, limit), rateBook }).options).toHaveLength(limit);
      expect(refused({ items: options(works, limit + 1), rateBook }).problems).toEqual([
        { name, what: "option or if found", count: limit + 1, limit, ...(items && { items }), pointer: "/items" },
      ]);
    }
  });

  it("are counts of 10,000", () => {
    expect(sheet({ items: [item("a", { count: 10_000 })] }).lines[0]!.count).toBe(10_000);
    expect(refused({ items: [item("a", { count: 10_001 })] }).problems).toMatchObject([
      { name: "count too large", value: 10_001, limit: 10_000 },
    ]);
  });

  it("are sums that stay exact", () => {
    const items = [item("a", { operation: "replace", count: 10_000, part: { type: "valve" } })];
    const partTypes = PLAIN.partTypes.map((each) => ({ ...each, typicalCost: 1_000_000_000 }));
    expect(refused({ items, rateBook: { ...PLAIN, partTypes } }).problems).toEqual([
      { name: "total too large", limit: 1_000_000_000_000, pointer: "" },
    ]);
  });
});

describe("words for where a problem is", () => {
  const where = (given: Partial<EstimateInput>) =>
    refused(given).problems.map((problem) => ("where" in problem ? problem.where : ""));

  it("name the assembly and the work", () => {
    expect(where({ items: [on("low", "a", { operation: "replace", count: -1, part: { type: "dip-40" } })] })).toEqual([
      "Board 'Low', replace dip-40",
    ]);
    expect(where({ items: [item("a", { count: -1 })] })).toEqual(["Unit as a whole, clean"]);
    expect(where({ items: [item("a", { count: -1, part: { type: "valve" } })] })).toEqual(["Unit as a whole, clean, valve"]);
  });

  it("keep capitals that belong to a name", () => {
    const partTypes = PLAIN.partTypes.map((each) => ({ ...each, name: each.id === "valve" ? "IC, 8 pins" : "Electrolytic" }));
    const operations = PLAIN.operations.map((each) => ({ ...each, name: "Replace" }));
    const at = (type: string) => [on("low", "a", { operation: "replace", count: -1, part: { type } })];
    const rateBook = { ...PLAIN, partTypes, operations };
    expect(where({ rateBook, items: at("valve") })).toEqual(["Board 'Low', replace IC, 8 pins"]);
    expect(where({ rateBook, items: at("capacitor") })).toEqual(["Board 'Low', replace electrolytic"]);
  });

  it("fall back on ids for what has no name", () => {
    const assemblies = [...ORGAN, assembly("box", { sort: "other", name: "Box" })];
    const items = [on("box", "a", { operation: "polish", part: { kind: "wax" } })];
    expect(where({ map: { assemblies }, items })).toEqual([
      "Assembly 'Box', operation 'polish', part kind 'wax'",
      "Assembly 'Box', operation 'polish', part kind 'wax'",
    ]);
  });
});

describe("figures that are none", () => {
  it.each([
    ["a count that is no number", { items: [item("a", { count: Number.NaN })] }, "count missing"],
    ["a count without end", { items: [item("a", { count: Number.POSITIVE_INFINITY })] }, "count too large"],
    [
      "a time that is no number",
      { items: [item("a", { minutes: { low: 0, likely: Number.NaN, high: 1 } })] },
      "minutes out of range",
    ],
    [
      "a negative tax",
      { rateBook: { ...PLAIN, tax: { ...PLAIN.tax, categories: [{ id: "none", name: "No", percent: -1 }] } } },
      "percent out of range",
    ],
    ["a bench without hours", { rateBook: { ...PLAIN, calendar: { weeklyBenchMinutes: 0 } } }, "minutes out of range"],
    ["mark-up without a band", { rateBook: { ...PLAIN, parts: { ...PLAIN.parts, markUp: [] } } }, "mark-up bands out of order"],
    [
      "mark-up that never ends",
      { rateBook: { ...PLAIN, parts: { ...PLAIN.parts, markUp: [{ upTo: 5, percent: 1 }] } } },
      "mark-up bands out of order",
    ],
    [
      "a replacement of nothing worth doing",
      { map: { assemblies: [assembly("a", { worthDoing: [{ operation: "replace", count: 1, reason: "" }] })] } },
      "part missing",
    ],
    ["columns of the grid below nothing", { map: { assemblies: [assembly("a", { counts: { clean: -3 } })] } }, "count negative"],
  ] as const)("are refused: %s", (_, given, name) => {
    expect(refused(given as Partial<EstimateInput>).problems.map((problem) => problem.name)).toContain(name);
  });

  it("are fine at 0 % and at 100 % tax", () => {
    const taxed = (percent: number) =>
      sheet({
        items: [item("a")],
        rateBook: { ...PLAIN, tax: { ...PLAIN.tax, categories: [{ id: "none", name: "", percent }] } },
      }).totals.total;
    expect([taxed(0), taxed(100)]).toEqual([700, 1400]);
  });

  it("escape odd keys in the pointer", () => {
    const assemblies = [assembly("a", { counts: { "a/b~c": 0.5 } })];
    expect(refused({ map: { assemblies } }).problems).toMatchObject([{ pointer: "/map/assemblies/0/counts/a~1b~0c" }]);
  });

  it("let a replacement go without a part when the shop gives its own minutes", () => {
    const minutes = { low: 1, likely: 2, high: 3 };
    expect(sheet({ items: [item("a", { operation: "replace", minutes })] }).lines).toMatchObject([{ minutes: 10 }]);
  });
});
