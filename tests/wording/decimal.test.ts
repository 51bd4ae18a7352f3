import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decimalMark, plainOf, readFigure, shift } from "../../src/wording/decimal.js";
import { runs } from "../setup/runs.js";

const plain = (text: string, mark: string, decimals = 2) => {
  const read = readFigure(text, { mark: mark as "." | ",", decimals });
  return read && ("wrong" in read ? read.wrong : read.plain);
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
      expect(plain(text, ".")).toBe(`'${text}' is not a number; write it like 12 or 1.5.`);
    },
  );

  it("asks about 1,234 where the comma is the decimal sign and money has two decimals", () => {
    expect(plain("1,234", ",")).toMatch(/^'1,234' can be read in two ways; write 1,5 for a fraction/);
    expect(plain("1,234", ",", 3)).toBe("1.234");
  });

  it("says what is wrong in the sentence that every form and table uses, and leaves a fraction to who knows better", () => {
    const said = (text: string, more: object, decimals = 0) => readFigure(text, { mark: ".", decimals, ...more });
    expect(said("", {})).toBeUndefined();
    expect(said("1.5", {})).toEqual({ wrong: "'1.5' is not whole; give a whole number." });
    expect(said("1.5", { fraction: "left" })).toMatchObject({ plain: "1.5" });
    expect(said("1.5055", {}, 2)).toEqual({ wrong: "'1.5055' has more than 2 decimals; round it." });
    expect(said("1.5055", { currency: "GBP" }, 2)).toEqual({ wrong: "'1.5055' has more decimals than GBP has (2); round it." });
    expect(said("1".repeat(25), {})).toEqual({ wrong: `'${"1".repeat(25)}' is longer than any real figure; check it.` });
    expect(said("1,234", { digits: 6 }, 2)).toMatchObject({ plain: "1234" });
  });

  // The same figures through Intl of the JavaScript engine, an implementation that is not ours.
  it.each(["en-GB", "de-DE", "fr-FR", "cs-CZ", "de-CH", "en-IN", "nb-NO", "pl-PL"])(
    "reads back what Intl writes in %s",
    (locale) => {
      const mark = decimalMark(locale);
      const writer = new Intl.NumberFormat(locale, { minimumFractionDigits: 2, maximumFractionDigits: 2, useGrouping: "min2" });
      fc.assert(
        fc.property(fc.integer({ min: -99_999_999, max: 99_999_999 }), (cents) => {
          const read = readFigure(writer.format(cents / 100), { mark, decimals: 2 });
          expect(read && "plain" in read && Number(shift(read.plain, 2))).toBe(cents);
        }),
        runs(200),
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
