/** Tax rounding laws; the source of each case stands in fixtures/published/tax-rounding.json. */
import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/tax-rounding.json";
import type { TaxRounding } from "../../../src/estimating/input.js";
import { addUp } from "../../../src/estimating/totals/addUp.js";
import { runs } from "../../setup/runs.js";
import { taxRules } from "./taxRules.js";

const cents = (amount: string) => new Decimal(amount).times(100).toNumber();

describe("the law's rounding", () => {
  it.each(published.cases)("$name", ({ amounts, percent, rounding, included, tax }) => {
    const totals = addUp(
      amounts.map((amount) => ({ amount: cents(amount), taxCategory: "S" })),
      [],
      taxRules([{ id: "S", percent }], rounding as TaxRounding, included),
      0,
    );
    expect(totals.tax).toBe(cents(tax));
  });

  // SSUTA section 324 as enacted in N.D.C.C. 57-39.4-25: carry to the third decimal, up whenever it is greater than four.
  it("half up on the exact tax is SSUTA's 'third decimal greater than four' for every amount and rate", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 5_000_000 }), fc.integer({ min: 0, max: 150_000 }), (amount, scaledPercent) => {
        const percent = scaledPercent / 10_000;
        const thousandths = new Decimal(amount)
          .div(100)
          .times(percent)
          .div(100)
          .toDecimalPlaces(3, Decimal.ROUND_DOWN)
          .toFixed(3);
        const up = Number(thousandths.at(-1)) > 4 ? 1 : 0;
        const expected = cents(thousandths.slice(0, -1)) + up;
        const rules = taxRules([{ id: "S", percent }], { level: "document", mode: "half up" });
        expect(addUp([{ amount, taxCategory: "S" }], [], rules, 0).tax).toBe(expected);
      }),
      runs(2000),
    );
  });
});

describe("prices that include tax", () => {
  const lines = [
    { amount: 11_000, taxCategory: "S" },
    { amount: 1_999, taxCategory: "S" },
    { amount: 500, taxCategory: "Z" },
  ];
  const rules = taxRules(
    [
      { id: "S", percent: 20 },
      { id: "Z", percent: 0 },
    ],
    { level: "group", mode: "half up" },
    true,
  );

  it("print net bases, and the total stays what the lines say", () => {
    const totals = addUp(lines, [{ charge: false, amount: 499, taxCategory: "S" }], rules, 1000);
    expect(totals).toMatchObject({
      linesNet: 13_499,
      allowances: 499,
      charges: 0,
      // 125.00 x 20 / 120 = 20.8333
      tax: 2083,
      withoutTax: 10_917,
      total: 13_000,
      prepaid: 1000,
      due: 12_000,
      pricesIncludeTax: true,
    });
    expect(totals.taxGroups).toEqual([
      { category: "S", name: "Tax 20 %", percent: 20, base: 10_417, tax: 2083 },
      { category: "Z", name: "Tax 0 %", percent: 0, base: 500, tax: 0 },
    ]);
  });
});

describe("tax groups", () => {
  it("stand in the rate book's order, and only where something is taxed", () => {
    const rules = taxRules([
      { id: "reduced", percent: 5 },
      { id: "standard", percent: 20 },
      { id: "zero", percent: 0 },
    ]);
    const lines = [
      { amount: 100, taxCategory: "zero" },
      { amount: 100, taxCategory: "reduced" },
    ];
    expect(addUp(lines, [], rules, 0).taxGroups.map((group) => group.category)).toEqual(["reduced", "zero"]);
  });

  it("take in a charge whose category no line has", () => {
    const rules = taxRules([
      { id: "standard", percent: 20 },
      { id: "freight", percent: 10 },
    ]);
    const totals = addUp([], [{ charge: true, amount: 250, taxCategory: "freight" }], rules, 0);
    expect(totals.taxGroups).toEqual([{ category: "freight", name: "Tax 10 %", percent: 10, base: 250, tax: 25 }]);
  });

  it("share one rounding: two groups of half a cent each print 1 and 0 when the document is rounded once", () => {
    const rules = taxRules(
      [
        { id: "a", percent: 5 },
        { id: "b", percent: 10 },
      ],
      { level: "document", mode: "half up" },
    );
    const lines = [
      { amount: 10, taxCategory: "a" },
      { amount: 5, taxCategory: "b" },
    ];
    expect(addUp(lines, [], rules, 0).taxGroups.map((group) => group.tax)).toEqual([1, 0]);
    expect(addUp(lines, [], { ...rules, rounding: { level: "group", mode: "half up" } }, 0).tax).toBe(2);
  });

  it("are none when there is nothing to tax", () => {
    expect(addUp([], [], taxRules([{ id: "S", percent: 20 }]), 0)).toMatchObject({ taxGroups: [], tax: 0, total: 0, due: 0 });
  });

  it("refuse a category the checks should have stopped", () => {
    expect(() => addUp([{ amount: 1, taxCategory: "ghost" }], [], taxRules([{ id: "S", percent: 20 }]), 0)).toThrow("'ghost'");
  });
});
