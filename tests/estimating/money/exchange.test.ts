/** Against decimal.js, over every currency of ISO 4217 list one (currency.test.ts holds our decimals against it). */
import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { currencyCodes, decimalsOf } from "../../../src/estimating/money/currency.js";
import { exchanged, readRate } from "../../../src/estimating/money/exchange.js";

const D = Decimal.clone({ precision: 80 });

describe("money of another currency", () => {
  // Worked by hand: minor units of 0, 2 and 3 decimals (ISO 4217).
  it.each([
    [2400, "JPY", "GBP", "0.0052", 1248],
    [1248, "GBP", "JPY", "192.5", 2402],
    [1250, "BHD", "GBP", "2.0945", 262],
    [100, "GBP", "BHD", "0.4774", 477],
    [1, "JPY", "BHD", "0.0025", 3],
    [1, "USD", "EUR", "0.5", 1],
    [1, "USD", "EUR", "0.4999999999", 0],
    [0, "USD", "EUR", "0.9", 0],
  ] as const)("%d of %s in %s at %s is %d", (amount, from, to, rate, expected) => {
    expect(exchanged(amount, from, to, rate)).toBe(expected);
  });

  it("is rounded once, half away from zero, whatever the two currencies", () => {
    const code = fc.constantFrom(...currencyCodes());
    const rate = fc
      .tuple(fc.bigInt({ min: 0n, max: 999_999n }), fc.bigInt({ min: 1n, max: 999_999_999_999n }))
      .map(([whole, decimals]) => `${whole}.${String(decimals).padStart(12, "0")}`);
    fc.assert(
      fc.property(fc.nat(1_000_000_000), code, code, rate, (amount, from, to, given) => {
        const exact = new D(amount)
          .div(new D(10).pow(decimalsOf(from)!))
          .times(given)
          .times(new D(10).pow(decimalsOf(to)!));
        const expected = exact.toDecimalPlaces(0, D.ROUND_HALF_UP);
        if (expected.lessThan(Number.MAX_SAFE_INTEGER)) expect(exchanged(amount, from, to, given)).toBe(expected.toNumber());
      }),
    );
  });

  it.each(["0", "0.00", "-1", "1e3", "", " 1", "1,5", "1.", ".5", "NaN", "Infinity", "1.1234567890123", "1234567890123"])(
    "takes no rate of '%s'",
    (rate) => expect(readRate(rate)).toBeUndefined(),
  );

  it("takes a decimal of up to twelve digits on either side", () => {
    expect(readRate("123456789012.000000000001")).toEqual({ units: 123456789012000000000001n, per: 1_000_000_000_000n });
    expect(readRate("7")).toEqual({ units: 7n, per: 1n });
  });
});
