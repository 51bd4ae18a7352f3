/** Oracle: decimal.js 10.6.0 (ROUND_HALF_UP = half away from zero, ROUND_HALF_DOWN = half towards zero, ROUND_DOWN = truncate). */
import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { divide, divideWhole, timesOver } from "../../../src/estimating/money/rounding.js";
import { runs } from "../../setup/runs.js";

const Exact = Decimal.clone({ precision: 80 });
const MODES = [
  ["half up", Decimal.ROUND_HALF_UP],
  ["half down", Decimal.ROUND_HALF_DOWN],
  ["down", Decimal.ROUND_DOWN],
] as const;

describe.each(MODES)("rounding '%s'", (mode, decimalMode) => {
  const expected = (numerator: bigint, denominator: bigint) =>
    new Exact(numerator.toString()).div(denominator.toString()).toDecimalPlaces(0, decimalMode).toFixed();

  it("agrees with decimal.js above and below zero", () => {
    const numerators = fc.bigInt({ min: -(10n ** 21n), max: 10n ** 21n });
    fc.assert(
      fc.property(numerators, fc.bigInt({ min: 1n, max: 10n ** 9n }), (numerator, denominator) => {
        expect(divideWhole(numerator, denominator, mode)).toBe(BigInt(expected(numerator, denominator)));
      }),
      runs(2000),
    );
  });

  it("agrees with decimal.js on every tie and its neighbours from -20 to 20", () => {
    for (let twentieths = -400n; twentieths <= 400n; twentieths++)
      expect(divide(twentieths, 20n, mode), `${twentieths} / 20`).toBe(Number(expected(twentieths, 20n)));
  });
});

describe("half up", () => {
  it.each([
    [5n, 10n, 1],
    [-5n, 10n, -1],
    [4n, 10n, 0],
    [-4n, 10n, 0],
    [15n, 10n, 2],
    [-25n, 10n, -3],
  ])("%s / %s is %s: halves go away from zero", (numerator, denominator, whole) => {
    expect(divide(numerator, denominator)).toBe(whole);
  });

  // CHECKS of binary floating point: (1.005).toFixed(2) is "1.00" and (8.325).toFixed(2) is "8.32".
  it("does not fall into the binary traps of 1.005 and 8.325", () => {
    expect([divide(1005n, 10n), divide(8325n, 10n)]).toEqual([101, 833]);
  });

  it("never gives a negative zero", () => {
    expect(Object.is(divide(-1n, 10n), 0)).toBe(true);
  });
});

describe("a product over a denominator", () => {
  it("is exact where plain numbers are not", () => {
    expect(timesOver(9_007_199_254_740_991, 1_000_001, 1_000_000)).toBe(9_007_208_261_940_246);
    fc.assert(
      fc.property(
        fc.integer({ min: -1_000_000_000_000, max: 1_000_000_000_000 }),
        fc.integer({ min: 0, max: 1_000_000 }),
        (amount, percent) => {
          const exact = new Exact(amount).times(percent).div(1_000_000).toDecimalPlaces(0, Decimal.ROUND_HALF_UP);
          expect(timesOver(amount, percent, 1_000_000)).toBe(exact.plus(0).toNumber());
        },
      ),
    );
  });

  it.each(MODES)("rounds '%s' the same in plain numbers and in whole ones without end", (mode) => {
    const near = fc.integer({ min: -3000, max: 3000 });
    const far = fc.integer({ min: -4_000_000_000, max: 4_000_000_000 });
    fc.assert(
      fc.property(fc.oneof(near, far), fc.oneof(near, far), fc.integer({ min: 1, max: 2_000_000 }), (a, b, denominator) => {
        const expected = divide(BigInt(a) * BigInt(b), BigInt(denominator), mode);
        expect(timesOver(a, b, denominator, mode)).toBe(expected);
        // A tie on purpose.
        expect(timesOver(2 * a + 1, denominator, 2 * denominator, mode)).toBe(divide(BigInt(2 * a + 1), 2n, mode));
      }),
      runs(2000),
    );
  });
});
