import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { spreadOverCategories } from "../../../src/estimating/totals/discount.js";

const line = (amount: number, taxCategory: string) => ({ amount, taxCategory });
const lines = fc.array(
  fc.record({ amount: fc.integer({ min: -10_000, max: 1_000_000 }), taxCategory: fc.constantFrom("a", "b", "c", "d") }),
  { minLength: 1, maxLength: 20 },
);

describe("a discount over all lines", () => {
  it("falls on each tax category in proportion to its lines", () => {
    const spread = spreadOverCategories(1000, [line(6000, "labour"), line(3000, "parts"), line(1000, "labour")]);
    expect(spread).toEqual([
      { taxCategory: "labour", amount: 700 },
      { taxCategory: "parts", amount: 300 },
    ]);
  });

  it("hands its odd cent to the largest fraction", () => {
    const spread = spreadOverCategories(100, [line(1, "a"), line(1, "b"), line(1, "c")]);
    expect(spread.map((part) => part.amount)).toEqual([34, 33, 33]);
  });

  it("leaves alone a category that is only a credit", () => {
    const spread = spreadOverCategories(100, [line(900, "labour"), line(-300, "fees"), line(100, "parts")]);
    expect(spread).toEqual([
      { taxCategory: "labour", amount: 90 },
      { taxCategory: "parts", amount: 10 },
    ]);
  });

  it("counts sizes when every category is a credit", () => {
    expect(spreadOverCategories(-90, [line(-200, "a"), line(-100, "b")])).toEqual([
      { taxCategory: "a", amount: -60 },
      { taxCategory: "b", amount: -30 },
    ]);
  });

  it("goes to the first line's category when all lines are zero", () => {
    expect(spreadOverCategories(50, [line(0, "a"), line(0, "b")])).toEqual([{ taxCategory: "a", amount: 50 }]);
  });

  it("is nothing over no lines, or when it is zero", () => {
    expect(spreadOverCategories(50, [])).toEqual([]);
    expect(spreadOverCategories(0, [line(10, "a")])).toEqual([]);
  });

  it("always sums to the amount, never turns its sign and never repeats a category", () => {
    fc.assert(
      fc.property(fc.integer({ min: -1_000_000, max: 1_000_000_000 }), lines, (amount, lineList) => {
        const spread = spreadOverCategories(amount, lineList);
        expect(spread.reduce((sum, part) => sum + part.amount, 0)).toBe(amount);
        expect(spread.every((part) => Math.sign(part.amount) === Math.sign(amount))).toBe(true);
        expect(new Set(spread.map((part) => part.taxCategory)).size).toBe(spread.length);
      }),
    );
  });
});
