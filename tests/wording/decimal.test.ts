import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decimalMark, plainOf, readDecimal, shift } from "../../src/wording/decimal.js";

const plain = (text: string, mark: string, decimals = 2) => {
  const read = readDecimal(text, mark, decimals);
  return read.ok ? read.plain : read.why;
};

describe("reading a number as people write it", () => {
  it.each([
    ["1,234.50", ".", "1234.50"],
    ["1.234,50", ",", "1234.50"],
    ["1 234,50", ",", "1234.50"],
    ["1\u202f234,50", ",", "1234.50"],
    ["1'234.50", ".", "1234.50"],
    ["1,234", ".", "1234"],
    ["1.234", ",", "1234"],
    ["1,234,567", ".", "1234567"],
    ["1,5", ".", "1.5"],
    ["1.5", ",", "1.5"],
    [".5", ".", "0.5"],
    ["007", ".", "7"],
    ["−3", ".", "-3"],
  ])("reads %s where the decimal sign is %s as %s", (text, mark, expected) => {
    expect(plain(text, mark)).toBe(expected);
  });

  it.each(["abc", "12a", "1e5", "0x10", "1,23,4", "1.2.3", "--1", "½", "=1+1", "Infinity", "NaN"])(
    "does not guess at %s",
    (text) => {
      expect(plain(text, ".")).toBe("unreadable");
    },
  );

  it("asks about 1,234 where the comma is the decimal sign and money has two decimals", () => {
    expect(plain("1,234", ",")).toBe("ambiguous");
    expect(plain("1,234", ",", 3)).toBe("1.234");
  });

  // The same figures through Intl of the JavaScript engine, an implementation that is not ours.
  it.each(["en-GB", "de-DE", "fr-FR", "cs-CZ", "de-CH", "en-IN", "nb-NO", "pl-PL"])(
    "reads back what Intl writes in %s",
    (locale) => {
      const mark = decimalMark(locale);
      const writer = new Intl.NumberFormat(locale, { minimumFractionDigits: 2, maximumFractionDigits: 2, useGrouping: "min2" });
      fc.assert(
        fc.property(fc.integer({ min: -99_999_999, max: 99_999_999 }), (cents) => {
          const read = readDecimal(writer.format(cents / 100), mark, 2);
          expect(read.ok && Number(shift(read.plain, 2)) === cents).toBe(true);
        }),
        { numRuns: 200 },
      );
    },
  );
});

describe("moving the decimal point", () => {
  it("loses no digit either way", () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 }),
        fc.integer({ min: -6, max: 6 }),
        (value, places) => {
          expect(Number(shift(shift(plainOf(value), places), -places)) === value).toBe(true);
        },
      ),
    );
  });

  it("makes a share of a percentage exactly", () => {
    expect(Number(shift("7", -2))).toBe(0.07);
    expect(shift("0.29", 2)).toBe("29");
  });
});
