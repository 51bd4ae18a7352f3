import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { withChoices, withFound } from "../../../src/estimating/agreement/choices.js";
import { agreedLimit, type Limit, measured, over } from "../../../src/estimating/agreement/limit.js";
import type { EstimateInput, Policy, RateBook, WorkItem } from "../../../src/estimating/input.js";
import { PROFILES, profileOf } from "../../../src/estimating/law/profiles.js";
import { runs } from "../../setup/runs.js";
import { job, on } from "../cast/organ.js";
import { TAXED } from "../cast/plainBook.js";
import { DEMO, sheetOf } from "./demo.js";

/** Lid 12.00 and top 6.00 come off; 4.00 set-up and 9 x 3.00: 49.00, or 58.80 with tax at 20 %. */
const agreed = (policy: Policy = {}, more: readonly WorkItem[] = [], rateBook: RateBook = TAXED): EstimateInput =>
  job({ items: [on("top", "a", { count: 9 }), ...more], policy, rateBook });
const possible = on("top", "b", { operation: "adjust", certainty: { is: "if found", probability: 0.3 } });
const limitOf = (input: EstimateInput, found?: readonly string[]): Limit => agreedLimit(input, found)!;
const headroom = (abovePercent: number): RateBook => ({ ...TAXED, ceiling: { abovePercent } });

describe("how far the bill may go on what was agreed", () => {
  it("is the printed ceiling under the shop's own terms", () => {
    const input = agreed();
    expect(limitOf(input)).toEqual({ agreed: 5880, upTo: 6468, withTax: true, by: "ceiling" });
    expect(sheetOf(input).ceiling.amount).toBe(6468);
  });

  it("is the estimate itself in California, measured without tax", () => {
    expect(limitOf(agreed({ profile: "us-ca" }))).toEqual({ agreed: 4900, upTo: 4900, withTax: false, by: "tolerance" });
  });

  it("is 10 % above the estimate in Ontario and Prince George's County, whatever more the shop's book would print", () => {
    for (const profile of ["ca-on", "us-md-pg"])
      expect(limitOf(agreed({ profile }, [], headroom(25)))).toEqual({
        agreed: 5880,
        upTo: 6468,
        withTax: true,
        by: "tolerance",
      });
  });

  it("is the shop's ceiling where that is lower than the law's tolerance, since the shop has promised it", () => {
    expect(limitOf(agreed({ profile: "ca-on" }, [], headroom(4)))).toEqual({
      agreed: 5880,
      upTo: 6115,
      withTax: true,
      by: "ceiling",
    });
  });

  it("is the highest price the European form states", () => {
    const input = agreed({ profile: "eu-form" });
    expect(limitOf(input).upTo).toBe(sheetOf(input).ceiling.amount);
  });

  it("is the ceiling that the owner set, with tax, lower or higher than any tolerance", () => {
    expect(limitOf(agreed({ profile: "us-ca", ceiling: 9000 }))).toEqual({
      agreed: 5880,
      upTo: 9000,
      withTax: true,
      by: "owner's ceiling",
    });
    expect(limitOf(agreed({ profile: "ca-on", ceiling: 6000 })).upTo).toBe(6000);
  });

  it("is never below what was agreed, even where the owner agreed to more than the ceiling set before", () => {
    expect(limitOf(agreed({ ceiling: 1000 })).upTo).toBe(5880);
  });

  it("drops the fraction of a tolerance: 10 % of 58.88 is 5.88", () => {
    const rateBook = { ...headroom(50), fees: { ...TAXED.fees, storagePerDay: 7 } };
    expect(limitOf(agreed({ profile: "ca-on", storageDays: 1 }, [], rateBook))).toMatchObject({ agreed: 5888, upTo: 6476 });
  });

  it("grows with work agreed in advance once it is found, within the printed ceiling", () => {
    /** Adjusting: 5 + 10 minutes at 2.00 = 30.00. */
    const input = agreed({ profile: "us-ca" }, [possible], headroom(100));
    expect(limitOf(input).upTo).toBe(4900);
    expect(limitOf(input, ["b"]).upTo).toBe(7900);
    expect(sheetOf(input).ceiling).toEqual({ amount: 9480, from: { is: "rule", rule: "ceiling by agreement profile" } });
    const tight = agreed({ profile: "us-ca" }, [possible], headroom(10));
    expect(limitOf(tight, ["b"])).toMatchObject({ upTo: 5390, by: "ceiling" });
  });

  it("is that of the set agreed to, not of all options", () => {
    const option = on("low", "c", { certainty: { is: "optional", chosen: true } });
    const input = agreed({}, [option]);
    expect(limitOf(withChoices(input, [])).agreed).toBe(5880);
    expect(limitOf(withChoices(input, ["c"])).agreed).toBe(5880 + 1200);
  });

  it("is not told for an input with problems", () => {
    expect(agreedLimit({ ...agreed(), currency: "ZZZ" })).toBeUndefined();
  });
});

describe("an amount against the limit", () => {
  it("is compared like with like: with tax where the limit is with tax, without where it is without", () => {
    const withTax = limitOf(agreed({ profile: "ca-on" }));
    const withoutTax = limitOf(agreed({ profile: "us-ca" }));
    const amount = { withoutTax: 4900, total: 7000 };
    expect(over(withTax, amount)).toBe(7000 - 6468);
    expect(over(withoutTax, amount)).toBe(0);
    expect(over(withoutTax, { withoutTax: 4901, total: 4901 })).toBe(1);
  });

  it("may reach it and not pass it", () => {
    const limit = limitOf(agreed());
    expect(over(limit, { withoutTax: 0, total: limit.upTo })).toBe(0);
    expect(over(limit, { withoutTax: 0, total: limit.upTo + 1 })).toBe(1);
  });
});

describe("the ceiling that is printed", () => {
  const figures = fc.record({
    job: fc.constantFrom(...DEMO),
    profile: fc.constantFrom(...PROFILES.map(({ id }) => id)),
    abovePercent: fc.integer({ min: 0, max: 400 }).map((tenths) => tenths / 10),
    included: fc.boolean(),
  });

  it("is never below the total, and the limit never above it, under any profile", () => {
    fc.assert(
      fc.property(figures, ({ job: input, profile, abovePercent, included }) => {
        const rateBook = { ...input.rateBook, ceiling: { abovePercent }, tax: { ...input.rateBook.tax, included } };
        const given: EstimateInput = { ...input, rateBook, policy: { ...input.policy, profile } };
        const sheet = sheetOf(given);
        const limit = limitOf(given);
        expect(sheet.ceiling.amount).toBeGreaterThanOrEqual(sheet.totals.total);
        expect(limit.agreed).toBe(measured(profileOf(profile), sheet.totals));
        expect(limit.upTo).toBeGreaterThanOrEqual(limit.agreed);
        if (limit.withTax) expect(limit.upTo).toBeLessThanOrEqual(sheet.ceiling.amount);
        expect(over(limit, sheet.totals)).toBe(0);
      }),
      runs(60),
    );
  });

  it("leaves room in California for possible work listed with it, and for nothing else", () => {
    for (const input of DEMO) {
      const given: EstimateInput = { ...input, policy: { ...input.policy, profile: "us-ca" } };
      const sheet = sheetOf(given);
      const allFound = sheetOf({
        ...given,
        items: given.items.map((each) => (each.certainty.is === "if found" ? { ...each, certainty: { is: "planned" } } : each)),
      });
      const dearest = Math.max(0, ...sheet.ifFound.map(({ price }) => price));
      const shops = sheet.totals.total + Math.max(dearest, Math.round(sheet.totals.total / 10));
      expect(sheet.ceiling.amount).toBe(Math.min(shops, allFound.totals.total));
    }
  });
});

describe("room for what was agreed in advance", () => {
  const roomy = (percent: number) => ({ ...headroom(percent), ceiling: { abovePercent: percent, leavesRoom: true } });
  const possibleAt = (id: string, count: number) =>
    on("low", id, { ...{ count }, certainty: { is: "if found", probability: 0.3 } });

  it("is in the ceiling: the dearest possible work can be done without asking again", () => {
    const input = agreed({}, [possibleAt("b", 3), possibleAt("c", 30)], roomy(10));
    const { totals, ceiling, ifFound } = sheetOf(input);
    const dearest = ifFound.reduce((most, { price }) => Math.max(most, price), 0);
    expect(dearest).toBeGreaterThan(totals.total / 10);
    expect(ceiling.amount).toBe(totals.total + dearest);
    const found = ifFound.find(({ price }) => price === dearest)!;
    const done = sheetOf(withFound(input, [found.id])).totals;
    expect(over(limitOf(input, [found.id]), done)).toBe(0);
  });

  it("is told where all of it together would pass the ceiling, and not where it would not", () => {
    const warned = (input: EstimateInput) => sheetOf(input).warnings.some(({ is }) => is === "possible work above ceiling");
    expect(warned(agreed({}, [possibleAt("b", 30), possibleAt("c", 30)], roomy(10)))).toBe(true);
    expect(warned(agreed({}, [possibleAt("b", 3)], roomy(10)))).toBe(false);
    expect(warned(agreed({ ceiling: 6000 }, [possibleAt("b", 30)], roomy(10)))).toBe(true);
  });

  it("stops at what the law profile allows", () => {
    const input = agreed({ profile: "us-md-pg" }, [possibleAt("b", 30)], roomy(10));
    expect(limitOf(input).upTo).toBe(Math.floor(sheetOf(input).totals.total * 1.1));
  });
});
