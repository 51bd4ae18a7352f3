/** Arithmetic of a line: EN 16931 as written down in Peppol BIS Billing 3.0 (unit price x count, rounded once). Shops and offers: demo. */
import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Offer, PartKind } from "../../../src/estimating/input.js";
import { type PartNeed, type PartsContext, partsPricer } from "../../../src/estimating/parts/priceParts.js";
import { runs } from "../../setup/runs.js";
import { bookWith, DIVIDER, dividers, NO_MARGIN, offer, owed, type Rules, shop } from "./demoShop.js";

const partsOf = (needs: readonly PartNeed[], context: PartsContext) => partsPricer(context)(needs);

const amounts = (lines: readonly { readonly id: string; readonly amount: number }[]) =>
  lines.map(({ id, amount }) => [id, amount]);

describe("a part cheaper than its freight by the million", () => {
  const nearly = offer("nearly-free", { price: 1, freight: 1_000_000 });

  it("is charged with its freight, once and to the penny, where nobody else has it", () => {
    const priced = partsOf(dividers(1, "swap"), shop([nearly], { markUp: [{ percent: 0 }] }));
    expect([owed(priced), priced.freight.map(({ amount }) => amount)]).toEqual([1_000_001, [1_000_000]]);
  });

  it("is left where it is while anyone has it dearer and near", () => {
    const priced = partsOf(dividers(1, "swap"), shop([nearly, offer("near", { price: 1800 })], { markUp: [{ percent: 0 }] }));
    expect([owed(priced), priced.freight]).toEqual([1800, []]);
  });
});

describe("a part counted by type only", () => {
  const need: PartNeed = { type: "film", count: 12, items: ["recap"] };

  it("is charged at the type's typical cost and mark-up, without freight or waiting", () => {
    const { lines, results, freight, warnings } = partsOf(
      [need],
      shop([], { typicalCost: 48, markUp: [{ upTo: 100, percent: 60 }] }),
    );
    expect(lines).toEqual([
      {
        id: "part:film",
        sort: "part",
        taxClass: "parts",
        taxCategory: "standard",
        part: { type: "film", name: "Film capacitor" },
        count: 12,
        unitPriceE4: 768_000,
        amount: 922,
        from: [
          { is: "item", id: "recap" },
          { is: "rate book", entry: "/partTypes/0/typicalCost" },
          { is: "rate book", entry: "/parts/markUp/0" },
          { is: "rule", rule: "mark-up by unit cost" },
        ],
      },
    ]);
    expect(results).toEqual([
      {
        type: "film",
        name: "Film capacitor",
        needed: 12,
        charged: 12,
        scarcity: "in stock",
        because: { is: "usual part" },
        leadDays: 0,
        cost: 576,
        markUpPercent: 60,
      },
    ]);
    expect([...freight, ...warnings]).toEqual([]);
  });

  it("bears the margin of the class set by hand for the type", () => {
    const context = {
      ...shop([], { marginPercent: { ...NO_MARGIN, scarce: 25 } }),
      policy: { scarcityByType: { film: "scarce" as const } },
    };
    const { lines, warnings } = partsOf([need], context);
    expect(amounts(lines)).toEqual([
      ["part:film", 1200],
      ["scarcity:film", 300],
    ]);
    expect(lines[1]?.why).toEqual({ rule: "scarcity", scarcity: "scarce", percent: 25, because: { is: "set by hand" } });
    expect(warnings).toEqual([]);
  });
});

describe("the line of a part", () => {
  it.each([
    [16_000, 101, 1000, 1616, "16000 x 0.00101 = 16.16: EN 16931 ubl-tc434-example8.xml"],
    [100, 1212, 100, 1212, "100 x 0.1212 = 12.12: EN 16931 sample-discount-price.xml"],
    [132, 1524, 12, 16_764, "132 x 15.24 / 12 = 167.64: EN 16931 ubl-tc434-example8.xml"],
  ])("of %i at %i for %i is %i (%s)", (count, price, packSize, amount) => {
    const { lines } = partsOf(dividers(count), shop([offer("a", { price, packSize })]));
    expect(lines).toMatchObject([{ count, amount }]);
  });

  it("takes the first mark-up band that reaches the cost of one piece, not of the pack", () => {
    const markUp = [{ upTo: 100, percent: 60 }, { upTo: 500, percent: 50 }, { percent: 15 }];
    const markUpOf = (price: number, packSize: number) =>
      partsOf(dividers(1), shop([offer("a", { price, packSize })], { markUp })).results[0]?.markUpPercent;
    expect([markUpOf(1000, 10), markUpOf(1001, 10), markUpOf(5000, 10), markUpOf(5001, 10)]).toEqual([60, 50, 50, 15]);
  });

  it("charges the pieces used, or whole packs when the rate book says so", () => {
    const packs = [offer("a", { price: 1000, packSize: 10, minimumPacks: 3 })];
    expect(partsOf(dividers(12), shop(packs)).lines).toMatchObject([{ count: 12, amount: 1200 }]);
    const whole = partsOf(dividers(12), shop(packs, { packs: "whole" })).lines;
    expect(whole).toMatchObject([{ count: 30, amount: 3000 }]);
    expect(whole[0]?.from).toContainEqual({ is: "rule", rule: "whole packs" });
  });

  it("charges whole packs of what is scarce whatever the rate book says", () => {
    const one = [offer("a", { price: 1000, packSize: 10, state: "used", shareGood: 1 })];
    expect(partsOf(dividers(12), shop(one)).results).toMatchObject([{ scarcity: "scarce", needed: 12, charged: 20, cost: 2000 }]);
  });

  it("is exact where the cost of a piece has no end", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 10_000 }),
        fc.integer({ min: 0, max: 10_000_000 }),
        fc.integer({ min: 1, max: 5000 }),
        fc.integer({ min: 0, max: 4_000_000 }),
        (count, price, packSize, percentE4) => {
          const context = shop([offer("a", { price, packSize })], { markUp: [{ percent: percentE4 / 10_000 }] });
          const [line] = partsOf(dividers(count), context).lines;
          const unit = new Decimal(price)
            .times(1_000_000 + percentE4)
            .div(100)
            .div(packSize)
            .toDecimalPlaces(0, Decimal.ROUND_HALF_UP);
          expect(line?.unitPriceE4).toBe(unit.toNumber());
          expect(line?.amount).toBe(unit.times(count).div(10_000).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber());
        },
      ),
      runs(300),
    );
  });
});

describe("where a part is bought", () => {
  const bought = (count: number, offers: readonly Offer[], rules?: Rules) =>
    partsOf(dividers(count), shop(offers, rules)).results.map(({ offer, needed }) => [offer, needed]);

  it("is where it costs least with the freight", () => {
    const offers = [offer("near", { price: 110, freight: 100 }), offer("far", { price: 100, freight: 450 })];
    expect(bought(30, offers)).toEqual([["near", 30]]);
    expect(bought(40, offers)).toEqual([["far", 40]]);
  });

  it("counts the freight of a source that is paid already as nothing", () => {
    const kinds = [DIVIDER, { ...DIVIDER, id: "divider-b", name: "Octave divider B" }];
    const offers = [
      offer("a", { source: "Harbour Surplus", freight: 500 }),
      offer("b-harbour", { kind: "divider-b", source: "Harbour Surplus", freight: 600, price: 120 }),
      offer("b-other", { kind: "divider-b", source: "Mill Lane Parts", freight: 450, price: 100 }),
    ];
    const { results, freight } = partsOf(
      [...dividers(1), { type: "divider", kind: "divider-b", count: 5, items: [] }],
      shop(offers, {}, kinds),
    );
    expect(results.map(({ offer }) => offer)).toEqual(["a", "b-harbour"]);
    expect(freight).toEqual([
      {
        id: "freight:Harbour Surplus",
        sort: "freight",
        charge: true,
        amount: 600,
        taxCategory: "standard",
        taxClass: "freight",
        reason: "Harbour Surplus",
        from: [
          { is: "offer", id: "b-harbour", source: "Harbour Surplus", on: "2026-11-01" },
          { is: "rule", rule: "freight once per source" },
        ],
      },
    ]);
  });

  it("is the quicker of two as cheap, then the first by id", () => {
    expect(bought(1, [offer("a", { leadDays: 9 }), offer("b", { leadDays: 2 })])).toEqual([["b", 1]]);
    expect(bought(1, [offer("b"), offer("a")])).toEqual([["a", 1]]);
  });

  it("is the quicker of two as cheap with freight, though its piece costs more", () => {
    expect(bought(1, [offer("slow", { price: 100, freight: 10, leadDays: 20 }), offer("quick", { price: 110 })])).toEqual([
      ["quick", 1],
    ]);
  });

  it("weighs the scarcity margin, which grows with the price and not with the freight", () => {
    const offers = [
      offer("dear", { price: 100, state: "donor pull" }),
      offer("cheap", { price: 80, freight: 250, state: "donor pull" }),
    ];
    expect(bought(10, offers)).toEqual([["dear", 10]]);
    expect(bought(10, offers, { marginPercent: { ...NO_MARGIN, "donor only": 45 } })).toEqual([["cheap", 10]]);
  });

  it("is several sources when that is cheaper or no other way, cheapest piece first", () => {
    const offers = [
      offer("few", { available: 10 }),
      offer("dear", { price: 500, available: 5 }),
      offer("dearest", { price: 900 }),
    ];
    expect(bought(9, offers)).toEqual([["few", 9]]);
    expect(bought(16, offers)).toEqual([
      ["few", 10],
      ["dear", 5],
      ["dearest", 1],
    ]);
  });

  it("is never an offer of another currency, of a later day, or with fewer pieces than the fewest packs sold", () => {
    const offers = [
      offer("euro", { currency: "EUR", price: 1 }),
      offer("later", { on: "2026-11-26", price: 2 }),
      offer("too few", { price: 3, packSize: 10, minimumPacks: 2, available: 19 }),
      offer("good", { price: 400 }),
    ];
    expect(bought(1, offers)).toEqual([["good", 1]]);
  });

  it("weighs the minutes of pulling a part from a donor unit against its price", () => {
    const offers = [offer("pull", { price: 0, pullMinutes: 10, state: "donor pull" }), offer("new", { price: 700 })];
    // 10 minutes at 48.00 an hour are 8.00.
    expect(bought(1, offers)).toEqual([["new", 1]]);
    const { pulls } = partsOf(dividers(3, "chip"), shop([{ ...offers[0]!, pullMinutes: 8.5 }, offers[1]!]));
    expect(pulls).toEqual([
      {
        part: { type: "divider", kind: "divider-a", name: "Octave divider A" },
        offer: "pull",
        source: "Source of pull",
        on: "2026-11-01",
        items: ["chip"],
        count: 3,
        minutes: 25.5,
      },
    ]);
  });
});

describe("stock on the shelf", () => {
  const kinds: PartKind[] = [{ ...DIVIDER, stock: 4 }];

  it("is used first, at the cheapest offer's price, without freight or waiting", () => {
    const offers = [offer("a", { price: 300, freight: 500, leadDays: 8 }), offer("b", { price: 800, packSize: 4, available: 4 })];
    const { lines, results, freight } = partsOf(dividers(4), shop(offers, {}, kinds));
    expect(lines).toMatchObject([{ id: "part:divider-a", count: 4, amount: 800 }]);
    expect(lines[0]?.from).toContainEqual({ is: "stock", kind: "divider-a" });
    expect(results).toMatchObject([{ leadDays: 0, scarcity: "in stock", because: { is: "on the shelf", stock: 4 } }]);
    expect(freight).toEqual([]);
  });

  it("is charged at the typical cost when there is no offer", () => {
    expect(partsOf(dividers(3), shop([], {}, kinds)).lines).toMatchObject([{ count: 3, amount: 2700 }]);
  });

  it("leaves the rest to be bought, as a line of its own", () => {
    const { lines, results } = partsOf(dividers(6), shop([offer("a", { price: 300 })], {}, kinds));
    expect(amounts(lines)).toEqual([
      ["part:divider-a", 1200],
      ["part:divider-a/2", 600],
    ]);
    expect(results).toMatchObject([
      { needed: 4, leadDays: 0 },
      { needed: 2, offer: "a", leadDays: 5 },
    ]);
  });
});

describe("warnings", () => {
  it("name an offer older than the rate book allows, once", () => {
    const offers = [offer("a", { on: "2026-08-26" })];
    expect(partsOf(dividers(2), shop(offers, {}, [{ ...DIVIDER, stock: 1 }])).warnings).toEqual([
      { is: "old offer", offer: "a", part: "Octave divider A", on: "2026-08-26", days: 91 },
    ]);
    expect(partsOf(dividers(2), shop([offer("a", { on: "2026-08-27" })])).warnings).toEqual([]);
  });

  it("say when not enough is offered, and price the rest at the dearest offer", () => {
    const offers = [offer("a", { available: 2 }), offer("b", { price: 700, available: 1, leadDays: 30 })];
    const { lines, results, warnings } = partsOf(dividers(5), shop(offers));
    expect(lines.map(({ amount }) => amount)).toEqual([200, 700, 1400]);
    expect(results.at(-1)).toEqual(expect.not.objectContaining({ offer: expect.anything() }));
    expect(results.at(-1)).toMatchObject({ needed: 2, leadDays: 30, scarcity: "scarce" });
    expect(warnings).toEqual([{ is: "not enough offered", part: "Octave divider A", needed: 5, offered: 3 }]);
  });

  it("say that nothing is offered, and price at the typical cost", () => {
    const { lines, warnings } = partsOf(dividers(2), shop([]));
    expect(lines).toMatchObject([{ amount: 1800 }]);
    expect(warnings).toEqual([{ is: "not enough offered", part: "Octave divider A", needed: 2, offered: 0 }]);
  });

  it("are spared a shop that set the class by hand and keeps no offers", () => {
    expect(partsOf(dividers(2), shop([], {}, [{ ...DIVIDER, scarcity: "to order" }])).warnings).toEqual([]);
  });
});

describe("the scarcity margin", () => {
  it("is a percentage of the cost before mark-up, on a line of its own that says why", () => {
    const rules = { markUp: [{ percent: 100 }], marginPercent: { ...NO_MARGIN, "donor only": 45 } };
    const { lines } = partsOf(dividers(3, "chip"), shop([offer("a", { price: 111, state: "donor pull" })], rules));
    expect(lines[0]?.amount).toBe(666);
    expect(lines[1]).toEqual({
      id: "scarcity:divider-a",
      sort: "scarcity margin",
      taxClass: "parts",
      taxCategory: "standard",
      part: { type: "divider", kind: "divider-a", name: "Octave divider A" },
      amount: 150,
      why: { rule: "scarcity", scarcity: "donor only", percent: 45, because: { is: "donor pulls only" } },
      from: [
        { is: "item", id: "chip" },
        { is: "rate book", entry: "/scarcity/marginPercent/donor only" },
        { is: "rule", rule: "scarcity margin" },
      ],
    });
  });
});

describe("the lines", () => {
  it("stand in the order of the rate book's types, each type's kinds after the type", () => {
    const needs = [...dividers(1), { type: "divider", count: 1, items: [] }, { type: "film", count: 1, items: [] }];
    expect(partsOf(needs, shop([offer("a")])).lines.map(({ id }) => id)).toEqual(["part:film", "part:divider", "part:divider-a"]);
  });
});

describe("needs that are not ours to price", () => {
  it("are our own fault when the type or kind is unknown, so the engine throws", () => {
    expect(() => partsOf([{ type: "gizmo", count: 1, items: [] }], shop([]))).toThrow("gizmo");
    expect(() => partsOf([{ type: "film", kind: "gizmo", count: 1, items: [] }], shop([]))).toThrow("gizmo");
  });

  it("cost nothing when nothing is needed", () => {
    expect(partsOf([{ type: "film", count: 0, items: [] }], shop([]))).toEqual({
      lines: [],
      results: [],
      freight: [],
      pulls: [],
      warnings: [],
    });
  });
});

describe("any shop", () => {
  const anyOffer = (kind: string): fc.Arbitrary<Omit<Offer, "id">> =>
    fc.record(
      {
        kind: fc.constant(kind),
        source: fc.constantFrom("Harbour Surplus", "Mill Lane Parts", "Quarry Road Stores"),
        on: fc.constantFrom("2026-11-01", "2026-06-01", "2027-01-01"),
        currency: fc.constantFrom("GBP", "GBP", "GBP", "EUR"),
        price: fc.integer({ min: 0, max: 5000 }),
        packSize: fc.integer({ min: 1, max: 12 }),
        minimumPacks: fc.integer({ min: 1, max: 3 }),
        available: fc.integer({ min: 0, max: 40 }),
        leadDays: fc.integer({ min: 0, max: 30 }),
        state: fc.constantFrom("new", "new old stock", "used", "donor pull", "reproduction"),
        shareGood: fc.integer({ min: 1, max: 10 }).map((tenths) => tenths / 10),
        freight: fc.integer({ min: 0, max: 2000 }),
      },
      { requiredKeys: ["kind", "source", "on", "currency", "price", "packSize", "leadDays", "state"] },
    );
  const anyShop = fc
    .record({
      offers: fc.array(fc.constantFrom("k0", "k1", "k2").chain(anyOffer), { maxLength: 12 }),
      stock: fc.integer({ min: 0, max: 6 }),
      packs: fc.constantFrom("used" as const, "whole" as const),
      // Harder to get never costs less margin: the rate book's sense.
      margins: fc.array(fc.integer({ min: 0, max: 80 }), { minLength: 4, maxLength: 4 }).map((all) => all.sort((a, b) => a - b)),
      markUp: fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 3, maxLength: 3 }),
    })
    .map(({ offers, stock, packs, margins: [a = 0, b = 0, c = 0, d = 0], markUp: [low = 0, middle = 0, high = 0] }) =>
      shop(
        offers.map((given, at) => ({ ...given, id: `offer-${at}` })),
        {
          packs,
          marginPercent: { "in stock": a, "to order": b, scarce: c, "donor only": d },
          markUp: [{ upTo: 300, percent: low }, { upTo: 1500, percent: middle }, { percent: high }],
        },
        ["k0", "k1", "k2"].map((id) => ({ ...DIVIDER, id, name: id, ...(stock > 0 && { stock }) })),
      ),
    );
  const anyNeed = fc.oneof(
    fc.record({ type: fc.constant("film"), count: fc.integer({ min: 0, max: 60 }), items: fc.subarray(["x", "y", "z"]) }),
    fc.record({
      type: fc.constant("divider"),
      kind: fc.constantFrom("k0", "k1", "k2"),
      count: fc.integer({ min: 0, max: 60 }),
      items: fc.subarray(["x", "y", "z"]),
    }),
  ) as fc.Arbitrary<PartNeed>;
  const needs = fc.array(anyNeed, { maxLength: 6 });

  it("never asks less for one piece more of a part", () => {
    fc.assert(
      fc.property(anyShop, fc.integer({ min: 1, max: 50 }), (context, count) => {
        const priced = (pieces: number) => owed(partsOf([{ type: "divider", kind: "k0", count: pieces, items: [] }], context));
        expect(priced(count + 1)).toBeGreaterThanOrEqual(priced(count));
      }),
      runs(2000),
    );
  });

  it("charges freight at most once per source, and none that is not asked", () => {
    fc.assert(
      fc.property(anyShop, needs, (context, wanted) => {
        const { freight, results } = partsOf(wanted, context);
        const sources = freight.map(({ reason }) => reason);
        expect(new Set(sources).size).toBe(sources.length);
        for (const { reason, amount } of freight) {
          const used = results
            .filter(({ source }) => source === reason)
            .map(({ offer }) => context.offers?.find(({ id }) => id === offer)?.freight ?? 0);
          expect(amount).toBe(Math.max(...used));
          expect(amount).toBeGreaterThan(0);
        }
      }),
      runs(500),
    );
  });

  it("counts every piece once, from shelf, offers or a guess, and takes no more than is offered", () => {
    fc.assert(
      fc.property(anyShop, needs, (context, wanted) => {
        const { results, lines } = partsOf(wanted, context);
        const total = (list: readonly { readonly count: number }[]) => list.reduce((sum, { count }) => sum + count, 0);
        expect(total(results.map(({ needed }) => ({ count: needed })))).toBe(total(wanted));
        const partLines = lines.filter(({ sort }) => sort === "part");
        expect(partLines.map(({ count }) => count)).toEqual(results.map(({ charged }) => charged));
        expect(new Set(lines.map(({ id }) => id)).size).toBe(lines.length);
        for (const { offer: id, needed, charged } of results) {
          const found = context.offers?.find((each) => each.id === id);
          expect(charged).toBeGreaterThanOrEqual(needed);
          if (found) expect(charged).toBeLessThanOrEqual(found.available ?? Number.POSITIVE_INFINITY);
          if (found) expect([found.currency, found.on <= context.asOf]).toEqual(["GBP", true]);
        }
        for (const { unitPriceE4, count, amount } of partLines)
          expect(amount).toBe(
            new Decimal(unitPriceE4!).times(count!).div(10_000).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber(),
          );
      }),
      runs(500),
    );
  });

  it("takes the margin of each part on the sum of what its pieces cost", () => {
    fc.assert(
      fc.property(anyShop, needs, (context, wanted) => {
        const { results, lines } = partsOf(wanted, context);
        for (const key of ["k0", "k1", "k2", undefined]) {
          const own = results.filter(({ kind }) => kind === key);
          const percent = own[0] ? context.rateBook.scarcity.marginPercent[own[0].scarcity] : 0;
          const cost = own.reduce((sum, { cost }) => sum + cost, 0);
          const margin = lines.find(({ sort, part }) => sort === "scarcity margin" && part?.kind === key)?.amount ?? 0;
          expect(margin).toBe(new Decimal(cost).times(percent).div(100).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber());
        }
      }),
      runs(500),
    );
  });

  it("prices the same whatever the order of the needs and of the offers, and however they are split", () => {
    fc.assert(
      fc.property(anyShop, needs, (context, wanted) => {
        const split = wanted.flatMap((need) => [
          { ...need, count: Math.floor(need.count / 2) },
          { ...need, count: Math.ceil(need.count / 2) },
        ]);
        const turned = { ...context, offers: [...(context.offers ?? [])].reverse() };
        expect(partsOf(split.reverse(), turned)).toEqual(partsOf(wanted, context));
      }),
      runs(500),
    );
  });

  it("works from a rate book without mark-up bands", () => {
    expect(partsOf(dividers(2), { ...shop([offer("a")]), rateBook: bookWith({ markUp: [] }) }).lines).toMatchObject([
      { amount: 200 },
    ]);
  });
});
