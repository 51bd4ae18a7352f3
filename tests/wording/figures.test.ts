import codes from "currency-codes";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { currencyCodes } from "../../src/estimating/money/currency.js";
import { chance, money, percent, ticks, unitPrice } from "../../src/wording/figures.js";

const pounds = { locale: "en-GB", currency: "GBP" };

describe("money", () => {
  it("prints minor units with the decimals of the currency", () => {
    expect(money(123456, pounds)).toBe("£1,234.56");
    expect(money(5, pounds)).toBe("£0.05");
    expect(money(0, pounds)).toBe("£0.00");
    expect(money(1234, { locale: "en-GB", currency: "JPY" })).toBe("JP¥1,234");
    expect(money(1234, { locale: "en-GB", currency: "KWD" })).toBe("KWD\u00a01.234");
  });

  it("puts a credit below nought and never prints a negative nought", () => {
    expect(money(-4500, pounds)).toBe("-£45.00");
    expect(money(-0, pounds)).toBe("£0.00");
  });

  it("prints every digit of any amount in any currency", () =>
    fc.assert(
      fc.property(fc.maxSafeInteger(), fc.constantFrom(...currencyCodes()), (amount, currency) => {
        const printed = money(amount, { locale: "en-GB", currency });
        expect(BigInt(printed.replaceAll(/[^0-9]/g, ""))).toBe(BigInt(Math.abs(amount)));
        expect(printed.startsWith("-")).toBe(amount < 0);
      }),
    ));

  it("follows the reader's locale", () => {
    expect(money(123456, { locale: "de-DE", currency: "EUR" })).toBe("1.234,56\u00a0€");
    expect(money(123456, { locale: "cs-CZ", currency: "CZK" })).toBe("1\u00a0234,56\u00a0Kč");
    expect(money(123456, { locale: "fr-FR", currency: "EUR" })).toBe("1\u00a0234,56\u00a0€");
  });

  it("keeps every digit where binary floating point would lose one", () => {
    expect(money(9007199254740991, pounds)).toBe("£90,071,992,547,409.91");
    // 1.005 and 8.325 fall the wrong way as binary floats (seen in Node).
    expect(money(1005, { locale: "en-GB", currency: "BHD" })).toBe("BHD\u00a01.005");
    expect(money(8325, { locale: "en-GB", currency: "BHD" })).toBe("BHD\u00a08.325");
  });

  it("prints as many decimals as ISO 4217 list one gives, for every currency (independent table: currency-codes, 2024-06-25)", () => {
    for (const currency of currencyCodes()) {
      const decimals = codes.code(currency)!.digits;
      const printed = money(0, { locale: "en-GB", currency }).replaceAll(/[^0.]/g, "");
      expect(printed, currency).toBe(decimals === 0 ? "0" : `0.${"0".repeat(decimals)}`);
    }
    expect(currencyCodes().length).toBeGreaterThan(150);
  });

  it("prints Latin digits and no direction marks, in any locale", () => {
    for (const locale of ["ar-EG", "fa-IR", "he-IL", "hi-IN-u-nu-deva", "bn-BD"])
      expect(money(-123456, { locale, currency: "EUR" }), locale).not.toMatch(/[\u200e\u200f\u061c٠-٩۰-۹০-৯]/);
  });

  it("reads an unknown locale as English and an unknown code as it stands", () => {
    expect(money(123456, { locale: "no such locale", currency: "GBP" })).toBe("£1,234.56");
    expect(money(123456, { locale: "en-GB", currency: "pounds" })).toBe("1234.56 pounds");
  });
});

describe("unit price", () => {
  it("is printed in the currency's digits, with a sign where that is not all of it", () => {
    expect(unitPrice(150_000, pounds)).toBe("£0.15");
    expect(unitPrice(121_200, pounds)).toBe("≈ £0.12");
    expect(unitPrice(1, pounds)).toBe("< £0.01");
    expect(unitPrice(10_000, { locale: "en-GB", currency: "JPY" })).toBe("JP¥1");
  });
});

it.each([
  [20, "20%"],
  [0, "0%"],
  [8.25, "8.25%"],
  [0.0001, "0.0001%"],
  [7.0005, "7.0005%"],
  [112.5, "112.5%"],
  [-5, "-5%"],
])("prints %s percent as %s", (value, text) => expect(percent(value, "en-GB")).toBe(text));

it("follows the reader's locale", () => expect(percent(8.25, "de-DE")).toBe("8,25\u00a0%"));

it("prints a probability as a percentage to a tenth", () => {
  expect(chance(0.3, "en-GB")).toBe("30%");
  expect(chance(0.0625, "en-GB")).toBe("6.3%");
  expect(chance(1, "en-GB")).toBe("100%");
});

describe("the marks of a scale", () => {
  it.each([
    [63_000, 111_000, 6, [70_000, 80_000, 90_000, 100_000, 110_000]],
    [0, 100, 5, [0, 20, 40, 60, 80, 100]],
    [699, 701, 6, [699, 700, 701]],
    [-250, 250, 4, [-200, 0, 200]],
  ])("from %i to %i, about %i", (from, to, most, expected) => expect(ticks(from, to, most)).toEqual(expected));

  it("are whole, within the scale, evenly apart by 1, 2 or 5 times a power of ten, and few but not too few", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1e9, max: 1e9 }),
        fc.integer({ min: 2, max: 1e9 }),
        fc.integer({ min: 2, max: 9 }),
        (from, width, most) => {
          const marks = ticks(from, from + width, most);
          expect(marks.length).toBeLessThanOrEqual(most + 1);
          expect(marks.length).toBeGreaterThanOrEqual(Math.min(most, width) >= 5 ? 2 : 0);
          for (const mark of marks) {
            expect(Number.isInteger(mark)).toBe(true);
            expect(mark).toBeGreaterThanOrEqual(from);
            expect(mark).toBeLessThanOrEqual(from + width);
          }
          const steps = new Set(marks.slice(1).map((mark, index) => mark - marks[index]!));
          expect(steps.size).toBeLessThanOrEqual(1);
          for (const step of steps) expect(String(step)).toMatch(/^[125]0*$/);
        },
      ),
    );
  });
});
