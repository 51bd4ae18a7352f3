/** A price by risk of work that is certain to be found, or all but: one bench minute costs 1.00 and every time is certain, so by hand. */
import { describe, expect, it } from "vitest";
import type { Pricing, WorkItem } from "../../../src/estimating/input.js";
import { item, job } from "../cast/organ.js";
import { allowances, asked, fixed, netOf, plus, underCeiling } from "./asked.js";
import { EXACT } from "./shares.js";

const work = (probability: number, risk?: "shared" | "each") => {
  const found: WorkItem = item("f", { count: 4, certainty: { is: "if found", probability } });
  return job({ items: [item("a"), found], rateBook: { ...EXACT, ...(risk && { risk }) } });
};
const used = (probability: number, by: Pricing, risk?: "shared" | "each") => asked(work(probability, risk), by).risk.pricing;

describe("work that is certain to be found", () => {
  it("is within the price and its percentiles, and stands in no allowance for risk as if it were one", () => {
    for (const risk of ["shared", "each"] as const) {
      const sheet = asked(work(1, risk), fixed(80));
      expect([netOf(sheet), sheet.risk.p10, sheet.risk.p95, sheet.risk.contributions]).toEqual([1900, 1900, 1900, []]);
      expect(allowances(sheet).map(({ id, amount }) => [id, amount])).toEqual([["allowance:if found", 1200]]);
    }
    // As planned where the book shares risk, beside what is counted where it does not.
    expect(used(1, fixed(80), "shared")).toEqual({ by: fixed(80), deterministic: 1900, price: 1900 });
    expect(used(1, fixed(80), "each")).toMatchObject({ deterministic: 700, price: 1900 });
  });

  it("brings no option into the price that was not chosen", () => {
    const option = item("o", { count: 9, certainty: { is: "optional", chosen: false } });
    const beside = work(1, "shared");
    const sheet = asked({ ...beside, items: [...beside.items, option] }, fixed(80));
    expect([netOf(sheet), sheet.risk.pricing]).toEqual([1900, { by: fixed(80), deterministic: 1900, price: 1900 }]);
  });

  it("bears its share of a margin apart from it", () => {
    // 19.00 and a tenth: 12.00 are found, 1.90 is margin.
    const sheet = asked(work(1, "shared"), plus(10));
    expect(allowances(sheet).map(({ id, amount }) => [id, amount])).toEqual([
      ["allowance:if found", 1200],
      ["allowance:margin", 190],
    ]);
  });
});

describe("a price by risk", () => {
  it("says its ceiling only where there is one, and what raised it only where something did", () => {
    expect(used(0.5, fixed(80), "shared")).toEqual({ by: fixed(80), deterministic: 700, price: 1900 });
    expect(used(0.5, underCeiling(80), "shared")).toEqual({
      by: underCeiling(80),
      deterministic: 700,
      price: 700,
      ceiling: 1900,
    });
    const guarded = { ...fixed(50), minimumMarginPercent: 35 } as const;
    // 13.00 on average are 65 of 100.
    expect(used(0.5, guarded, "shared")).toEqual({ by: guarded, deterministic: 700, price: 2000, raisedTo: "minimum margin" });
  });

  it("never passes what the same costs planned, where it is all but planned", () => {
    for (const by of [fixed(80), plus(10), underCeiling(80)])
      for (const probability of [0.9, 0.99, 0.999, 1 - 1e-9]) {
        const { price, ceiling = price } = used(probability, by, "shared");
        const most = by.is === "expected cost plus" ? 2090 : 1900;
        expect(ceiling).toBeLessThanOrEqual(most);
        expect(ceiling).toBeGreaterThanOrEqual(
          by.is === "expected cost plus" ? Math.floor((700 + 1200 * probability) * 1.1) : most,
        );
      }
  });

  it("names what it is asked for what may be found: only such work, by its name", () => {
    const given = work(0.5, "shared");
    const lamp = item("lamp", { operation: "adjust", certainty: { is: "optional", chosen: false } });
    const sheet = asked({ ...given, items: [...given.items, lamp] }, fixed(80));
    expect(allowances(sheet).map(({ why }) => why)).toEqual([{ rule: "if-found allowance", work: ["clean × 4"] }]);
  });
});
