import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { split } from "../../../src/estimating/money/split.js";

const amounts = fc.integer({ min: -1_000_000_000_000, max: 1_000_000_000_000 });
const weights = fc.array(fc.integer({ min: 0, max: 1_000_000 }), { minLength: 1, maxLength: 12 });
const sum = (parts: number[]) => parts.reduce((total, part) => total + part, 0);

describe("a split", () => {
  it("hands its remainder out, one unit each, to the largest fractions, earlier first", () => {
    expect(split(100, [1, 1, 1])).toEqual([34, 33, 33]);
    expect(split(5, [3, 7])).toEqual([2, 3]);
    expect(split(101, [50, 50])).toEqual([51, 50]);
    expect(split(10, [1, 5, 4])).toEqual([1, 5, 4]);
  });

  it("gives everything to the first when nothing weighs anything", () => {
    expect(split(7, [0, 0])).toEqual([7, 0]);
  });

  it("sums to the amount", () => {
    fc.assert(fc.property(amounts, weights, (amount, list) => void expect(sum(split(amount, list))).toBe(amount)));
  });

  it("keeps each part less than one unit from its exact share (decimal.js), and gives weight zero nothing", () => {
    fc.assert(
      fc.property(amounts, weights, (amount, list) => {
        const whole = sum(list);
        fc.pre(whole > 0);
        for (const [index, part] of split(amount, list).entries()) {
          const exact = new Decimal(amount).times(list[index]!).div(whole);
          expect(exact.minus(part).abs().lt(1)).toBe(true);
          if (list[index] === 0) expect(part + 0).toBe(0);
        }
      }),
    );
  });

  it("of a credit mirrors the split of the charge", () => {
    fc.assert(
      fc.property(amounts, weights, (amount, list) => {
        const credit = split(-amount, list);
        expect(split(amount, list).map((part, index) => part + credit[index]!)).toEqual(list.map(() => 0));
      }),
    );
  });
});
