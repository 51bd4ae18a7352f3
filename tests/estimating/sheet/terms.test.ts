import { describe, expect, it } from "vitest";
import type { EstimateInput, Policy, RateBook } from "../../../src/estimating/input.js";
import { assembly, item, lineOf, ORGAN, on, sheet } from "../cast/organ.js";
import { PLAIN, TAXED } from "../cast/plainBook.js";

/** Access to the rail 21.00, cleaning it 7.00. */
const rail = (policy: Policy = {}, rateBook: RateBook = TAXED, given: Partial<EstimateInput> = {}) =>
  sheet({ items: [on("rail", "a")], policy, rateBook, ...given });

describe("the ceiling", () => {
  it("stands above the total, tax included, by the rate book's percentage", () => {
    expect(rail().ceiling).toEqual({ amount: 3696, from: { is: "rule", rule: "ceiling above total" } });
  });

  it("is the owner's own where there is one; a total above it is flagged", () => {
    expect(rail({ ceiling: 4000 })).toMatchObject({
      ceiling: { amount: 4000, from: { rule: "ceiling set by owner" } },
      warnings: [],
    });
    expect(rail({ ceiling: 3000 }).warnings).toEqual([{ is: "above ceiling", total: 3360, ceiling: 3000 }]);
  });
});

describe("if the owner declines after opening", () => {
  it("diagnosis and access with refit are owed, with their tax", () => {
    expect(rail({ diagnosis: true }).ifDeclined).toEqual({
      amount: 7320,
      diagnosis: 4000,
      access: 2100,
      tax: 1220,
      limited: false,
    });
    expect(rail().ifDeclined).toEqual({ amount: 2520, diagnosis: 0, access: 2100, tax: 420, limited: false });
  });

  it("never more than the agreed limit, tax included", () => {
    expect(rail({ diagnosis: true, diagnosisLimit: 5000 }).ifDeclined).toMatchObject({
      amount: 5000,
      limit: 5000,
      limited: true,
    });
    expect(rail({ diagnosisLimit: 2520 }).ifDeclined).toMatchObject({ amount: 2520, limited: false });
    expect(rail({ diagnosisLimit: 2519 }).ifDeclined).toMatchObject({ amount: 2519, limited: true });
    expect(rail({ diagnosisLimit: 5000 }).ifDeclined).toMatchObject({ amount: 2520, limit: 5000, limited: false });
  });

  it("takes the tax out of prices that include it", () => {
    const included = { ...TAXED, tax: { ...TAXED.tax, included: true } };
    expect(rail({ diagnosis: true }, included).ifDeclined).toMatchObject({ amount: 6100, tax: 1017 });
  });

  it("counts opened boards that have no name", () => {
    const boards = [{ size: "small", mounting: "on top", count: 2 } as const];
    expect(sheet({ boards, rateBook: TAXED }).ifDeclined).toMatchObject({ access: 600, amount: 720 });
  });
});

describe("the deposit", () => {
  const book = { ...TAXED, deposit: { scarcePartsPercent: 100, labourPercent: 25 } };
  const scarce = {
    items: [
      item("a", { operation: "replace", part: { kind: "rare" } }),
      item("b", { operation: "replace", part: { type: "capacitor" } }),
    ],
    kinds: [{ id: "rare", type: "dip-40", name: "Rare divider", scarcity: "scarce" }],
  } as const;

  it("is the hard parts with their margin, and a share of labour, tax included", () => {
    const result = rail({}, book, scarce);
    // Part 10 and margin 50 % of it; labour 8 + 22 + 3 minutes.
    expect(lineOf(result, "scarcity:rare").amount).toBe(5);
    expect(result.deposit.amount).toBe(18 + 990);
    expect(result.deposit.from).toEqual([
      { is: "rate book", entry: "/deposit/scarcePartsPercent" },
      { is: "rule", rule: "deposit on scarce parts" },
      { is: "rate book", entry: "/deposit/labourPercent" },
      { is: "rule", rule: "deposit on labour" },
    ]);
  });

  it("never passes the total", () => {
    const all = { ...book, deposit: { scarcePartsPercent: 100, labourPercent: 100 } };
    const result = rail({ discount: { percent: 90, reason: "goodwill" } }, all, scarce);
    expect(result.deposit.amount).toBe(result.totals.total);
  });

  it("is nothing, from nothing, where the rate book asks none", () => {
    expect(rail({}, TAXED, scarce).deposit).toEqual({ amount: 0, from: [] });
  });
});

describe("the days to complete", () => {
  it("are the queue, then the longest lead time, then the bench at its weekly pace", () => {
    const result = rail({ benchQueueDays: 9 }, PLAIN, {
      items: [on("rail", "a", { count: 64 }), item("b", { operation: "replace", part: { kind: "cap" } })],
      kinds: [{ id: "cap", type: "capacitor", name: "Capacitor" }],
      offers: [
        {
          id: "o",
          kind: "cap",
          source: "Pindrake",
          on: "2026-11-01",
          currency: "EUR",
          price: 10,
          packSize: 1,
          leadDays: 12,
          state: "new",
        },
      ],
    });
    // 21 + 4 + 192 + 11 = 228 minutes of 1200 a week: 1.33 days, so 2.
    expect(result.time.attended).toBe(228);
    expect(result.days).toEqual({ total: 23, queue: 9, lead: 12, bench: 2 });
  });

  it("are none for an estimate of nothing", () => {
    expect(sheet().days).toEqual({ total: 0, queue: 0, lead: 0, bench: 0 });
  });
});

describe("how long the estimate stands", () => {
  it.each([
    ["2026-11-25", 30, "2026-12-25"],
    ["2028-02-28", 1, "2028-02-29"],
    ["2027-02-28", 1, "2027-03-01"],
    ["2026-12-31", 0, "2026-12-31"],
    ["2026-03-28", 2, "2026-03-30"],
  ])("from %s for %i days is until %s", (asOf, validityDays, until) => {
    expect(sheet({ asOf, rateBook: { ...PLAIN, validityDays } }).validUntil).toBe(until);
  });
});

describe("the share of the declared value", () => {
  const worth = (declaredValue: number) =>
    rail({}, TAXED, { unit: { maker: "Threnwick", model: "Cadence 3", grade: "sound", declaredValue } }).warnings;

  it("is flagged when the total passes what the rate book sets", () => {
    expect(worth(5000)).toEqual([{ is: "value share", percent: 67.2, limit: 60, total: 3360, declared: 5000 }]);
    expect(worth(5600)).toEqual([]);
    expect(worth(0)).toEqual([]);
  });
});

describe("cautions", () => {
  it("name what they come from, for work that is only possible too, in a fixed order", () => {
    const assemblies = [...ORGAN, assembly("supply", { hazards: ["mains and stored charge"], behind: ["rail"] })];
    const operations = PLAIN.operations.map((each) =>
      each.id === "clean" ? { ...each, hazards: ["solvent vapour"] as const } : each,
    );
    const partTypes = PLAIN.partTypes.map((each) =>
      each.id === "valve" ? { ...each, hazards: ["valve high tension"] as const } : each,
    );
    const { hazards } = sheet({
      map: { assemblies },
      rateBook: { ...PLAIN, operations, partTypes },
      unit: { maker: "Threnwick", model: "Cadence 3", grade: "sound", hazards: ["solvent vapour", "mains and stored charge"] },
      items: [
        on("supply", "a", { certainty: { is: "if found", probability: 0.2 } }),
        item("b", { operation: "replace", part: { type: "valve" }, certainty: { is: "optional", chosen: false } }),
      ],
    });
    expect(hazards).toEqual([
      { hazard: "mains and stored charge", from: ["Threnwick Cadence 3", "Supply"] },
      { hazard: "valve high tension", from: ["valve"] },
      { hazard: "solvent vapour", from: ["Threnwick Cadence 3", "clean"] },
    ]);
  });
});

describe("a currency of more than two decimals", () => {
  it("is warned about: EN 16931 documents carry two", () => {
    const result = sheet({ currency: "KWD", rateBook: { ...PLAIN, currency: "KWD" } });
    expect(result.warnings).toEqual([{ is: "currency scale", currency: "KWD", decimals: 3 }]);
  });
});
