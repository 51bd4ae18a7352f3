import { describe, expect, it } from "vitest";
import type { EstimateInput, Policy, RateBook } from "../../../src/estimating/input.js";
import { item, lineOf, on, sheet, sum } from "../cast/organ.js";
import { PLAIN, TAXED } from "../cast/plainBook.js";

/** Access to the rail 21.00, cleaning 7.00, and two valves of 0.10 with 14.00 of labour. */
const items = [on("rail", "a"), item("b", { operation: "replace", count: 2, part: { type: "valve" } })];
const priced = (policy: Policy = {}, rateBook: RateBook = PLAIN, given: Partial<EstimateInput> = {}) =>
  sheet({ items, policy, rateBook, ...given });
const sundries = (given: Partial<RateBook["parts"]["sundries"]>): RateBook => ({
  ...PLAIN,
  parts: { ...PLAIN.parts, sundries: { ...PLAIN.parts.sundries, ...given } },
});

describe("fees", () => {
  it("charge the diagnosis only where it is asked for", () => {
    expect(lineOf(priced({ diagnosis: true }), "fee:diagnosis")).toMatchObject({ amount: 4000, taxClass: "fees" });
    expect(priced().lines.filter(({ sort }) => sort === "fee")).toEqual([]);
  });

  it("credit the diagnosis where the rate book does, so that an agreed job does not pay it", () => {
    const book = { ...PLAIN, fees: { ...PLAIN.fees, diagnosis: { amount: 4000, creditedOnAgreement: true } } };
    const result = priced({ diagnosis: true }, book);
    expect(lineOf(result, "fee:diagnosis credited")).toMatchObject({ amount: -4000, why: { rule: "credited" } });
    expect(result.totals.total).toBe(priced().totals.total);
    expect(result.ifDeclined.diagnosis).toBe(4000);
  });

  it("charge storage by the day", () => {
    expect(lineOf(priced({ storageDays: 12 }), "fee:storage")).toMatchObject({
      amount: 1200,
      why: { rule: "storage days", days: 12 },
    });
    expect(priced({ storageDays: 0 }).lines.filter(({ sort }) => sort === "fee")).toEqual([]);
  });
});

describe("a rush job", () => {
  it("pays a percentage of labour and access on top", () => {
    expect(priced({ rush: true }).adjustments).toMatchObject([
      { id: "rush", charge: true, amount: 1050, percent: 25, base: 4200, taxCategory: "none" },
    ]);
    expect(priced({ rush: false }).adjustments).toEqual([]);
  });
});

describe("sundries", () => {
  it("are a percentage of parts, with what it is of", () => {
    expect(priced({}, sundries({ percentOfParts: 7.5 })).adjustments).toMatchObject([
      { id: "sundries", charge: true, amount: 2, percent: 7.5, base: 20 },
    ]);
  });

  it("are a percentage of labour and access", () => {
    expect(priced({}, sundries({ percentOfLabour: 3 })).adjustments).toMatchObject([{ amount: 126, percent: 3, base: 4200 }]);
  });

  it("round once where they are of both", () => {
    // 1.25 % of 20 is 0.25 and of 4200 is 52.5: together 52.75.
    const [adjustment] = priced({}, sundries({ percentOfParts: 1.25, percentOfLabour: 1.25 })).adjustments;
    expect(adjustment).toMatchObject({ amount: 53 });
    expect(adjustment).not.toHaveProperty("base");
  });

  it("stop at the cap", () => {
    const [adjustment] = priced({}, sundries({ percentOfLabour: 3, cap: 100 })).adjustments;
    expect(adjustment).toMatchObject({ amount: 100 });
    expect(adjustment!.from).toContainEqual({ is: "rule", rule: "sundries cap" });
    expect(priced({}, sundries({ percentOfLabour: 3, cap: 0 })).adjustments).toEqual([]);
  });

  it("do not count the scarcity margin as parts", () => {
    const kinds = [{ id: "rare", type: "valve", name: "Rare valve", scarcity: "donor only" }] as const;
    const rare = [item("b", { operation: "replace", count: 2, part: { kind: "rare" } })];
    const result = priced({}, sundries({ percentOfParts: 50 }), { items: rare, kinds });
    expect(lineOf(result, "scarcity:rare").amount).toBe(20);
    expect(result.adjustments[0]).toMatchObject({ amount: 10, base: 20 });
  });
});

describe("a discount", () => {
  const reason = "second unit this year";

  it("comes off the sum of the lines", () => {
    expect(priced({ discount: { percent: 10, reason } }).adjustments).toMatchObject([
      { id: "discount", charge: false, amount: 422, percent: 10, base: 4220, reason },
    ]);
    expect(priced({ discount: { amount: 500, reason } }).totals.total).toBe(3720);
  });

  it("is spread over the tax categories of the lines, whole cents each", () => {
    const mixed = { ...TAXED, tax: { ...TAXED.tax, parts: "none" } };
    const { adjustments, totals } = priced({ discount: { amount: 1001, reason } }, mixed);
    // 4200 of labour and 20 of parts.
    expect(adjustments.map(({ id, amount, taxClass }) => [id, amount, taxClass])).toEqual([
      ["discount:full", 996, "labour"],
      ["discount:none", 5, "parts"],
    ]);
    expect(sum(totals.taxGroups.map(({ base }) => base))).toBe(4220 - 1001);
  });

  it("never passes the lines, and the shop is told", () => {
    const result = priced({ discount: { amount: 9000, reason } });
    expect(result.totals.total).toBe(0);
    expect(result.warnings).toEqual([{ is: "discount limited", asked: 9000, given: 4220 }]);
  });

  it("of nothing is nothing", () => {
    expect(priced({ discount: { percent: 0, reason } }).adjustments).toEqual([]);
    expect(priced({ discount: { percent: 100, reason } }, PLAIN, { items: [] }).adjustments).toEqual([]);
  });
});
