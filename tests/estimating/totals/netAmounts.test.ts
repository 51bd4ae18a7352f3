import { Decimal as Plain } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { TaxRounding, TaxRules } from "../../../src/estimating/input.js";
import type { Adjustment, Line } from "../../../src/estimating/sheet.js";
import { addUp } from "../../../src/estimating/totals/addUp.js";
import { netAmounts } from "../../../src/estimating/totals/netAmounts.js";
import { runs } from "../../setup/runs.js";
import { taxRules } from "./taxRules.js";

const Decimal = Plain.clone({ precision: 60 });
const IDS = ["labour", "parts", "freight", "fees"] as const;

const line = (amount: number, taxCategory: string, at = 0) => ({ id: `l${at}`, amount, taxCategory }) as Line;
const adjustment = (amount: number, charge: boolean, taxCategory: string, at = 0) =>
  ({ id: `a${at}`, amount, charge, taxCategory }) as Adjustment;
const sheetWith = (lines: readonly Line[], adjustments: readonly Adjustment[], tax: TaxRules) => ({
  lines,
  adjustments,
  totals: addUp(lines, adjustments, tax, 0),
});
const rulesOf = (percents: readonly number[], rounding: TaxRounding, included: boolean) =>
  taxRules(
    IDS.map((id, at) => ({ id, percent: percents[at]! })),
    rounding,
    included,
  );

const amount = fc.oneof(fc.integer({ min: -300, max: 300 }), fc.integer({ min: -2_000_000, max: 9_000_000 }));
const percent = fc.oneof(
  fc.constantFrom(0, 5, 7.7, 19, 20, 25, 100),
  fc.integer({ min: 0, max: 1_000_000 }).map((e4) => e4 / 10_000),
);
const rounding: fc.Arbitrary<TaxRounding> = fc.record(
  {
    level: fc.constantFrom("line", "group", "document"),
    mode: fc.constantFrom("half up", "half down", "down"),
    extraDigits: fc.integer({ min: 0, max: 3 }),
  },
  { requiredKeys: ["level", "mode"] },
);
const sheets = fc
  .record({
    lines: fc.array(fc.tuple(amount, fc.constantFrom(...IDS)), { maxLength: 12 }),
    adjustments: fc.array(fc.tuple(fc.integer({ min: 1, max: 90_000 }), fc.boolean(), fc.constantFrom(...IDS)), { maxLength: 4 }),
    percents: fc.tuple(percent, percent, percent, percent),
    rounding,
    included: fc.boolean(),
  })
  .map((given) => ({
    ...given,
    sheet: sheetWith(
      given.lines.map(([money, category], at) => line(money, category, at)),
      given.adjustments.map(([money, charge, category], at) => adjustment(money, charge, category, at)),
      rulesOf(given.percents, given.rounding, given.included),
    ),
  }));

describe("amounts without tax", () => {
  it("sum exactly to the printed base of each category, and to the total without tax", () => {
    fc.assert(
      fc.property(sheets, ({ sheet }) => {
        const { lines, adjustments } = netAmounts(sheet);
        const entries = [
          ...lines.map((each) => ({ category: each.line.taxCategory, net: each.net })),
          ...adjustments.map((each) => ({
            category: each.adjustment.taxCategory,
            net: each.adjustment.charge ? each.net : -each.net,
          })),
        ];
        const sum = (list: typeof entries) => list.reduce((total, { net }) => total + net, 0);
        for (const group of sheet.totals.taxGroups)
          expect(sum(entries.filter(({ category }) => category === group.category))).toBe(group.base);
        expect(sum(entries)).toBe(sheet.totals.withoutTax);
      }),
      runs(2000),
    );
  });

  it("are each less than one unit from the exact share, by decimal.js", () => {
    fc.assert(
      fc.property(sheets, ({ sheet, percents, included }) => {
        for (const {
          line: { amount: gross, taxCategory },
          net,
        } of netAmounts(sheet).lines) {
          const rate = included ? percents[IDS.indexOf(taxCategory as "labour")]! : 0;
          const exact = new Decimal(gross).times(100).div(new Decimal(100).plus(rate));
          expect(exact.minus(net).abs().toNumber()).toBeLessThan(1);
        }
      }),
      runs(500),
    );
  });

  it("keep the sign of a charge and of a discount: neither turns into the other", () => {
    fc.assert(
      fc.property(sheets, ({ sheet }) => {
        for (const { net } of netAmounts(sheet).adjustments) {
          expect(net).toBeGreaterThanOrEqual(0);
          expect(Object.is(net, -0)).toBe(false);
        }
      }),
      runs(500),
    );
  });

  it("are the amounts themselves where prices are without tax", () => {
    fc.assert(
      fc.property(sheets, ({ sheet, included }) => {
        fc.pre(!included);
        expect(netAmounts(sheet).lines.map(({ net }) => net)).toEqual(sheet.lines.map((each) => each.amount));
      }),
      runs(100),
    );
  });

  it("sum to the base of a group that comes to nothing while its tax does not", () => {
    // 0.50 + 0.50 - 1.00 at 20 % within, each rounded: 0.08 + 0.08 - 0.17 = -0.01.
    const tax = rulesOf([20, 0, 0, 0], { level: "line", mode: "half up" }, true);
    const sheet = sheetWith([line(50, "labour"), line(50, "labour", 1), line(-100, "labour", 2)], [], tax);
    expect(sheet.totals.taxGroups[0]).toMatchObject({ base: 1, tax: -1 });
    expect(netAmounts(sheet).lines.map(({ net }) => net)).toEqual([42, 42, -83]);
  });

  it("take 1/11 out of an Australian price of 11.00 (Explanatory Memorandum 6.2 to the 2000 Act: GST is 1/11)", () => {
    const tax = rulesOf([10, 0, 0, 0], { level: "group", mode: "half up" }, true);
    expect(netAmounts(sheetWith([line(1100, "labour")], [], tax)).lines[0]!.net).toBe(1000);
  });
});
