import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fromMilli, percentOf, priceMilli, toMilli, toScaledPercent } from "../../../src/estimating/money/scales.js";

describe("figures as people write them", () => {
  it("keep every minute of up to three decimals", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000_000 }), (milli) => {
        expect(toMilli(fromMilli(milli))).toBe(milli);
        expect(toMilli(Number(new Decimal(milli).div(1000).toFixed()))).toBe(milli);
      }),
    );
  });

  it("keep every percent of up to four decimals", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000 }), (scaled) => {
        expect(toScaledPercent(Number(new Decimal(scaled).div(10_000).toFixed()))).toBe(scaled);
      }),
    );
  });

  it("make percentages of amounts as decimal.js does, halves away from zero", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1_000_000_000, max: 1_000_000_000 }),
        fc.integer({ min: 0, max: 1_000_000 }),
        (amount, scaled) => {
          const percent = scaled / 10_000;
          const exact = new Decimal(amount).times(percent).div(100).toDecimalPlaces(0, Decimal.ROUND_HALF_UP);
          expect(percentOf(amount, percent)).toBe(exact.plus(0).toNumber());
        },
      ),
    );
    expect(percentOf(-10, 5)).toBe(-1);
  });

  it("price minutes at a rate per hour as decimal.js does", () => {
    expect(priceMilli(toMilli(12.5), 6000)).toBe(1250);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000_000 }), fc.integer({ min: 0, max: 1_000_000 }), (milli, rate) => {
        const exact = new Decimal(milli).times(rate).div(60_000).toDecimalPlaces(0, Decimal.ROUND_HALF_UP);
        expect(priceMilli(milli, rate)).toBe(exact.toNumber());
      }),
    );
  });
});
