import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { handOut } from "../../../src/estimating/money/split.js";
import { runs } from "../../setup/runs.js";

describe("handing out a rounded sum", () => {
  it("gives the missing unit to the largest fraction cut off", () => {
    expect(handOut(10n, [34n, 33n, 38n], 10n)).toEqual([3n, 3n, 4n]);
  });

  it("gives it to the earlier of two equal fractions", () => {
    expect(handOut(3n, [15n, 15n], 10n)).toEqual([2n, 1n]);
  });

  it("mirrors for credits", () => {
    expect(handOut(-3n, [-15n, -15n], 10n)).toEqual([-2n, -1n]);
  });

  it("holds beside each other a charge and a credit", () => {
    expect(handOut(1n, [16n, -4n], 10n)).toEqual([1n, 0n]);
    expect(handOut(2n, [16n, -4n], 10n)).toEqual([2n, 0n]);
  });

  it("sums to the total however the sum was rounded, each amount less than one unit from its share", () => {
    const shares = fc.array(fc.bigInt({ min: -10_000n, max: 10_000n }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(shares, fc.bigInt({ min: 1n, max: 500n }), fc.boolean(), (numerators, denominator, up) => {
        const exact = new Decimal(numerators.reduce((sum, one) => sum + one, 0n).toString()).div(denominator.toString());
        const total = BigInt((up ? exact.ceil() : exact.floor()).toFixed());
        const amounts = handOut(total, numerators, denominator);
        expect(amounts.reduce((sum, one) => sum + one, 0n)).toBe(total);
        for (const [index, amount] of amounts.entries()) {
          const gap = amount * denominator - numerators[index]!;
          expect(gap < denominator && gap > -denominator).toBe(true);
        }
      }),
      runs(1000),
    );
  });
});
