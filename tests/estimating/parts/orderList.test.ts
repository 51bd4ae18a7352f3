/** Hand-computed lists of an invented shop (demo); how many used parts to buy: fixtures/published/risk-scarce-parts.json. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/risk-scarce-parts.json";
import type { Offer } from "../../../src/estimating/input.js";
import { jobParts, type OpenNeed, stillWanted } from "../../../src/estimating/parts/jobParts.js";
import { type OrderAsk, orderList } from "../../../src/estimating/parts/orderList.js";
import { runs } from "../../setup/runs.js";
import { item, job, sheet } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";

const offer = (id: string, kind: string, more: Partial<Offer> = {}): Offer => ({
  ...{ id, kind, source: "Quillmere Components", on: "2026-11-01", currency: "EUR", price: 100, packSize: 1, leadDays: 4 },
  state: "new",
  ...more,
});
const need = (who: string, kind: string, pieces: number, ...buys: string[]): OpenNeed => ({
  ...{ job: who, currency: "EUR", pieces, part: { type: "film", kind, name: `Part ${kind}` } },
  buys: buys.map((id) => ({ offer: id, pieces })),
});
const ask = (given: Partial<OrderAsk>): OrderAsk => ({
  ...{ asOf: "2026-11-25", needs: [], offers: [], stock: new Map(), onOrder: new Map(), pullRatePerHour: 0 },
  scarcity: { ...PLAIN.scarcity, serviceLevel: 0.95 },
  ...given,
});

describe("an order list", () => {
  it("weighs offers of other currencies at the shop's rates, and orders in their own", () => {
    // 900 yen at 0.006 are 5.40, less than 6.00; 1,100 are more.
    const near = offer("near", "film", { price: 600 });
    const exchange = [{ currency: "JPY", into: "EUR", rate: "0.006", on: "2026-11-20", source: "bank" }];
    const listed = (price: number, into = "EUR") =>
      orderList(
        ask({
          needs: [need("J1", "film", 2)],
          offers: [near, offer("yen", "film", { source: "Hoshimi Parts", currency: "JPY", price, freight: 90 })],
          exchange: exchange.map((rate) => ({ ...rate, into })),
        }),
      ).sources;
    expect(listed(900)).toMatchObject([{ source: "Hoshimi Parts", currency: "JPY", goods: 1800, freight: 90, total: 1890 }]);
    expect(listed(1100)).toMatchObject([{ source: "Quillmere Components", currency: "EUR", goods: 1200 }]);
    expect(listed(900, "GBP")).toMatchObject([{ source: "Quillmere Components", currency: "EUR" }]);
  });

  it("shares packs between jobs, holds the fewest packs sold, and pays freight once per source", () => {
    // film: 3 + 4 - 2 on the shelf = 5 of packs of 10 at 4.50: one pack. lamp: 2 of singles at 1.20, at least 5 sold: 6.00.
    const list = orderList(
      ask({
        needs: [need("J1", "film", 3, "f"), need("J2", "film", 4, "f"), need("J2", "lamp", 2, "l")],
        stock: new Map([["film", 2]]),
        offers: [
          offer("f", "film", { price: 450, packSize: 10, freight: 390 }),
          offer("l", "lamp", { price: 120, minimumPacks: 5, freight: 250, leadDays: 9 }),
        ],
      }),
    );
    expect(list.sources).toMatchObject([
      {
        ...{ source: "Quillmere Components", goods: 1050, freight: 390, total: 1440, leadDays: 9 },
        lines: [
          {
            ...{ pieces: 5, packs: 1, spare: 5, cost: 450 },
            jobs: [
              { job: "J1", pieces: 1 },
              { job: "J2", pieces: 4 },
            ],
          },
          { pieces: 2, packs: 5, spare: 3, cost: 600, jobs: [{ job: "J2", pieces: 2 }] },
        ],
      },
    ]);
    expect(list.covered).toMatchObject([{ fromStock: 2, onOrder: 0, jobs: [{ job: "J1", pieces: 2 }] }]);
    expect(list.totals).toEqual([{ currency: "EUR", sources: 1, goods: 1050, freight: 390, total: 1440 }]);
    expect(list.uncovered).toEqual([]);
  });

  it("serves the jobs in their order from the shelf, then from what is on order", () => {
    const list = orderList(
      ask({
        needs: [need("J1", "film", 3), need("J2", "film", 3), need("J3", "film", 3)],
        stock: new Map([["film", 4]]),
        onOrder: new Map([["film", 3]]),
        offers: [offer("f", "film")],
      }),
    );
    expect(list.covered).toMatchObject([{ fromStock: 4, onOrder: 3 }]);
    expect(list.sources[0]!.lines).toMatchObject([{ pieces: 2, jobs: [{ job: "J3", pieces: 2 }] }]);
  });

  it("buys where the sheet bought, at the newest price known there, and not where it is cheaper", () => {
    const offers = [
      offer("old", "film", { source: "Tarnbeck", price: 200, on: "2026-06-01" }),
      offer("new", "film", { source: "Tarnbeck", price: 230, on: "2026-11-20" }),
      offer("tomorrow", "film", { source: "Tarnbeck", price: 10, on: "2026-11-26" }),
      offer("cheap", "film", { price: 50 }),
    ];
    expect(orderList(ask({ needs: [need("J1", "film", 2, "old")], offers })).sources).toMatchObject([
      { source: "Tarnbeck", total: 460, lines: [{ offer: { id: "new" } }] },
    ]);
    // No sheet bought it yet, such as possible work that was found: the cheapest.
    expect(orderList(ask({ needs: [need("J1", "film", 2)], offers })).sources).toMatchObject([
      { source: "Quillmere Components", total: 100 },
    ]);
  });

  it("plans used pieces for the jobs that still need some, not for one the shelf has served", () => {
    const used = offer("u", "valve", { state: "used", price: 2000 });
    const list = orderList(
      ask({ needs: [need("J1", "valve", 1, "u"), need("J2", "valve", 2, "u")], stock: new Map([["valve", 1]]), offers: [used] }),
    );
    const [line] = list.sources[0]!.lines;
    expect(line!.jobs).toEqual([{ job: "J2", pieces: 2 }]);
    // Seven of ten are good: 2 of 4 are there with 0.9163, of 5 with 0.9692 (binomial, by hand).
    expect(line!.pieces).toBe(5);
    expect(line!.chance).toBeCloseTo(0.96922, 5);
  });

  it("does not buy elsewhere what the spare pieces of a pack cover", () => {
    const offers = [
      offer("tens", "film", { price: 450, packSize: 10 }),
      offer("ones", "film", { source: "Tarnbeck", price: 60 }),
    ];
    const list = orderList(ask({ needs: [need("J1", "film", 6, "tens"), need("J2", "film", 3, "ones")], offers }));
    expect(list.sources).toMatchObject([{ total: 450, lines: [{ pieces: 9, spare: 1 }] }]);
  });

  it("names what no offer covers, and which job goes without", () => {
    const list = orderList(
      ask({
        needs: [
          need("J1", "film", 3, "f"),
          need("J2", "film", 4, "f"),
          need("J2", "lamp", 1),
          { ...need("J2", "lamp", 8), part: { type: "screw", name: "Screw" } },
        ],
        offers: [offer("f", "film", { packSize: 2, available: 5 })],
      }),
    );
    expect(list.sources[0]!.lines).toMatchObject([{ pieces: 4, packs: 2 }]);
    expect(list.uncovered).toMatchObject([
      { why: "not enough offered", pieces: 3, jobs: [{ job: "J2", pieces: 3 }] },
      { why: "no offer", pieces: 1 },
      { why: "counted by type", pieces: 8 },
    ]);
  });

  it("tells each job what it has from the shelf and from what is on order together", () => {
    const list = orderList(
      ask({
        needs: [need("J1", "film", 5), need("J2", "film", 2)],
        stock: new Map([["film", 2]]),
        onOrder: new Map([["film", 4]]),
      }),
    );
    expect(list.covered).toMatchObject([
      {
        ...{ fromStock: 2, onOrder: 4 },
        jobs: [
          { job: "J1", pieces: 5 },
          { job: "J2", pieces: 1 },
        ],
      },
    ]);
  });

  it("lists what is ordered of a source by the names of the parts, and parts of one name by their offers", () => {
    const named = (kind: string, name: string, id: string): OpenNeed => ({
      ...need("J1", kind, 1, id),
      part: { type: "film", kind, name },
    });
    const all = [
      ["zeta", "Zeta", "a"],
      ["twin", "Twin", "z"],
      ["other", "Twin", "y"],
      ["alpha", "Alpha", "t"],
    ] as const;
    const list = orderList(
      ask({ needs: all.map(([kind, name, id]) => named(kind, name, id)), offers: all.map(([kind, , id]) => offer(id, kind)) }),
    );
    expect(list.sources.map(({ lines }) => lines.map((each) => each.offer.id))).toEqual([["t", "y", "z", "a"]]);
  });

  it("buys more of what the sheet bought last where more is wanted now, and no more of an offer than it has", () => {
    const buys = [
      { offer: "first", pieces: 2 },
      { offer: "last", pieces: 1 },
    ];
    const offers = [
      offer("first", "film", { source: "Tarnbeck", price: 200 }),
      offer("last", "film", { source: "Pindrake", price: 300 }),
      offer("cheap", "film", { price: 50, available: 3 }),
    ];
    const bought = (needs: readonly OpenNeed[], given = offers) =>
      Object.fromEntries(
        orderList(ask({ needs, offers: given })).sources.flatMap(({ lines }) =>
          lines.map((each) => [each.offer.id, each.pieces]),
        ),
      );
    expect(bought([{ ...need("J1", "film", 5), buys }])).toEqual({ first: 2, last: 3 });
    expect(bought([{ ...need("J1", "film", 2), buys }])).toEqual({ first: 2 });
    // Nobody's sheet bought any: the cheapest as far as it goes, then the next.
    expect(bought([need("J1", "film", 2), need("J2", "film", 3)])).toEqual({ cheap: 3, first: 2 });
  });

  it("never mixes currencies", () => {
    const offers = [offer("e", "film"), offer("s", "film", { currency: "SEK", price: 10 })];
    const list = orderList(ask({ needs: [need("J1", "film", 2), { ...need("J2", "film", 1), currency: "SEK" }], offers }));
    expect(list.totals.map(({ currency, total }) => [currency, total])).toEqual([
      ["EUR", 200],
      ["SEK", 10],
    ]);
  });

  it.each(published.fewestPieces)(
    "buys $pieces used pieces at share $share for $needed good ones of two jobs together, at level $level",
    ({ needed, share, level, pieces, achieved }) => {
      const list = orderList(
        ask({
          needs: [need("J1", "valve", 1, "v"), need("J2", "valve", needed - 1, "v")],
          offers: [offer("v", "valve", { state: "used", shareGood: share })],
          scarcity: { ...PLAIN.scarcity, serviceLevel: level },
        }),
      );
      expect(list.sources[0]!.lines).toMatchObject([{ pieces, packs: pieces }]);
      expect(list.sources[0]!.lines[0]!.chance).toBeCloseTo(achieved, 6);
    },
  );

  it("covers every need with whole packs, never fewer than are sold, and adds up", () => {
    const offers = fc.array(
      fc.record({
        kind: fc.constantFrom("a", "b"),
        source: fc.constantFrom("North", "South"),
        price: fc.integer({ min: 0, max: 999 }),
        packSize: fc.integer({ min: 1, max: 12 }),
        minimumPacks: fc.integer({ min: 1, max: 3 }),
        freight: fc.integer({ min: 0, max: 500 }),
        available: fc.option(fc.integer({ min: 0, max: 40 }), { nil: undefined }),
      }),
      { maxLength: 6 },
    );
    const needs = fc.array(
      fc.record({ kind: fc.constantFrom("a", "b"), pieces: fc.nat(9), buy: fc.nat(6), job: fc.constantFrom("J1", "J2", "J3") }),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(offers, needs, fc.nat(6), (some, wanted, shelf) => {
        const all = some.map(({ available, ...one }, at) =>
          offer(`o${at}`, one.kind, { ...one, ...(available !== undefined && { available }) }),
        );
        const stock = new Map([["a", shelf]]);
        const asked = wanted.map(({ kind, pieces, buy, job: who }) =>
          need(who, kind, pieces, ...(all[buy]?.kind === kind ? [`o${buy}`] : [])),
        );
        const list = orderList(ask({ needs: asked, offers: all, stock }));
        const lines = list.sources.flatMap((source) => source.lines);
        for (const kind of ["a", "b"]) {
          const total = (of: readonly { readonly part: { readonly kind?: string }; readonly pieces: number }[]) =>
            of.filter(({ part }) => part.kind === kind).reduce((sum, { pieces }) => sum + pieces, 0);
          const covered = list.covered
            .filter(({ part }) => part.kind === kind)
            .reduce((sum, { fromStock }) => sum + fromStock, 0);
          expect(covered).toBe(Math.min(total(asked), stock.get(kind) ?? 0));
          expect(total(lines) + total(list.uncovered) + covered).toBe(total(asked));
        }
        for (const { offer: from, packs, pieces, spare, cost, jobs } of lines) {
          expect(packs).toBeGreaterThanOrEqual(from.minimumPacks ?? 1);
          expect(packs * from.packSize).toBe(pieces + spare);
          expect(packs * from.packSize).toBeLessThanOrEqual(from.available ?? Number.POSITIVE_INFINITY);
          expect(cost).toBe(packs * from.price);
          expect(jobs.reduce((sum, served) => sum + served.pieces, 0)).toBe(pieces);
        }
        for (const { lines: own, goods, freight, total } of list.sources) {
          expect(goods).toBe(own.reduce((sum, { cost }) => sum + cost, 0));
          expect(freight).toBe(Math.max(...own.map((line) => line.offer.freight ?? 0)));
          expect(total).toBe(goods + freight);
        }
        expect(list.totals.reduce((sum, { total }) => sum + total, 0)).toBe(
          list.sources.reduce((sum, { total }) => sum + total, 0),
        );
      }),
      runs(150),
    );
  });
});

describe("the parts of a job", () => {
  it("are what planned work takes, possible work once it is found, and no option that was left", () => {
    const kinds = [{ id: "k", type: PLAIN.partTypes[0]!.id, name: "Film capacitor" }];
    const part = { kind: "k" };
    const given = {
      kinds,
      offers: [offer("f", "k")],
      items: [
        item("plan", { part, count: 4 }),
        item("maybe", { part, count: 3, certainty: { is: "if found", probability: 0.5 } }),
        item("left", { part, count: 9, certainty: { is: "optional", chosen: false } }),
        item("clean", { count: 2 }),
      ],
    };
    const parts = jobParts(job(given), sheet(given));
    expect(parts).toMatchObject([{ part: { kind: "k", name: "Film capacitor" }, buys: [{ offer: "f", pieces: 4 }] }]);
    expect(parts[0]!.takes.map(({ item: id, count }) => [id, count])).toEqual([
      ["plan", 4],
      ["maybe", 3],
    ]);
    expect(stillWanted(parts[0]!, new Map())).toBe(4);
    expect(
      stillWanted(
        parts[0]!,
        new Map([
          ["plan", 3],
          ["maybe", 0],
        ]),
      ),
    ).toBe(4);
    // More used than needed, as when one was bad, asks for no more.
    expect(stillWanted(parts[0]!, new Map([["plan", 5]]))).toBe(0);
  });
});
