/** decimal.js recomputes every total on its own; no figure of the totals is used to compute the expected one. */
import { Decimal as Plain } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { TaxRounding } from "../../../src/estimating/input.js";
import { addUp } from "../../../src/estimating/totals/addUp.js";
import { runs } from "../../setup/runs.js";
import { taxRules } from "./taxRules.js";

const Decimal = Plain.clone({ precision: 120 });
type Decimal = Plain;

const IDS = ["labour", "parts", "freight", "fees"] as const;
const category = fc.constantFrom(...IDS);
const amount = fc.oneof(
  fc.integer({ min: -1000, max: 1000 }),
  fc.integer({ min: -5_000_000, max: 20_000_000 }),
  fc.integer({ min: 0, max: 1_000_000_000_000 }),
);
const lines = fc.array(fc.record({ amount, taxCategory: category }), { maxLength: 12 });
const adjustments = fc.array(
  fc.record({ charge: fc.boolean(), amount: fc.integer({ min: 0, max: 2_000_000 }), taxCategory: category }),
  { maxLength: 4 },
);
const percent = fc.oneof(
  fc.constantFrom(0, 5, 5.5, 6.5, 7.7, 8.25, 10, 15, 17.5, 20, 25, 100),
  fc.integer({ min: 0, max: 1_000_000 }).map((scaled) => scaled / 10_000),
);
const rounding: fc.Arbitrary<TaxRounding> = fc.record(
  {
    level: fc.constantFrom("line", "group", "document"),
    mode: fc.constantFrom("half up", "half down", "down"),
    extraDigits: fc.integer({ min: 0, max: 3 }),
  },
  { requiredKeys: ["level", "mode"] },
);
const rules = fc.tuple(fc.tuple(percent, percent, percent, percent), rounding, fc.boolean()).map(([percents, rule, included]) =>
  taxRules(
    IDS.map((id, index) => ({ id, percent: percents[index]! })),
    rule,
    included,
  ),
);
const prepaid = fc.integer({ min: 0, max: 500_000 });

const MODES = {
  "half up": Decimal.ROUND_HALF_UP,
  "half down": Decimal.ROUND_HALF_DOWN,
  down: Decimal.ROUND_DOWN,
} as const;
const total = (figures: Decimal[]): Decimal => figures.reduce((sum, figure) => sum.plus(figure), new Decimal(0));
/** Thirds summed to a half come out a hair off in decimals: 60 places are finer than any real distance from a tie. */
const settle = (figure: Decimal): Decimal => figure.toDecimalPlaces(60);

/** Without the negative zero of decimal.js. */
const plain = (figure: Decimal): number => figure.toNumber() + 0;

type Case = [lines: Parameters<typeof addUp>[0], adjustments: Parameters<typeof addUp>[1], rules: ReturnType<typeof taxRules>];

function byDecimals([lineList, adjustmentList, { categories, rounding: rule, included }]: Case) {
  const all = [
    ...lineList.map((line) => ({ ...line, figure: new Decimal(line.amount) })),
    ...adjustmentList.map((one) => ({ ...one, figure: new Decimal(one.amount).times(one.charge ? 1 : -1) })),
  ];
  const round = (figure: Decimal, digits = 0) => settle(figure).toDecimalPlaces(digits, MODES[rule.mode]);
  const exact = (figure: Decimal, rate: number) =>
    included ? figure.times(rate).div(new Decimal(100).plus(rate)) : figure.times(rate).div(100);
  const groups = categories.map(({ id, percent: rate }) => {
    const figures = all.filter((one) => one.taxCategory === id).map((one) => one.figure);
    const sum = exact(total(figures), rate);
    if (rule.level === "group") return round(sum);
    if (rule.level === "document") return sum;
    return total(figures.map((figure) => round(exact(figure, rate), rule.extraDigits ?? 0)));
  });
  const tax = round(total(groups));
  const sum = total(all.map((one) => one.figure));
  return { groups, tax, sum };
}

const cases = fc.tuple(lines, adjustments, rules);

describe("the totals", () => {
  it("of 8,000 random documents agree with decimal.js, for every level, mode and price basis", () => {
    fc.assert(
      fc.property(cases, prepaid, ([lineList, adjustmentList, tax], paid) => {
        const totals = addUp(lineList, adjustmentList, tax, paid);
        const expected = byDecimals([lineList, adjustmentList, tax]);
        expect(totals.tax).toBe(plain(expected.tax));
        const without = tax.included ? expected.sum.minus(expected.tax) : expected.sum;
        expect(totals.withoutTax).toBe(plain(without));
        expect(totals.total).toBe(plain(without.plus(expected.tax)));
        expect(totals.due).toBe(plain(without.plus(expected.tax).minus(paid)));
      }),
      runs(8000),
    );
  }, 180_000);

  it("are each the sum of what is printed", () => {
    const sum = (amounts: number[]) => amounts.reduce((so, one) => so + one, 0);
    fc.assert(
      fc.property(cases, prepaid, ([lineList, adjustmentList, tax], paid) => {
        const totals = addUp(lineList, adjustmentList, tax, paid);
        expect(totals.linesNet).toBe(sum(lineList.map((line) => line.amount)));
        expect(totals.allowances).toBe(sum(adjustmentList.filter((one) => !one.charge).map((one) => one.amount)));
        expect(totals.charges).toBe(sum(adjustmentList.filter((one) => one.charge).map((one) => one.amount)));
        expect(totals.tax).toBe(sum(totals.taxGroups.map((group) => group.tax)));
        expect(totals.withoutTax).toBe(sum(totals.taxGroups.map((group) => group.base)));
        expect(totals.total).toBe(totals.withoutTax + totals.tax);
        expect(totals.due).toBe(totals.total - totals.prepaid);
        const printed = totals.linesNet - totals.allowances + totals.charges;
        expect(tax.included ? totals.total : totals.withoutTax).toBe(printed);
      }),
      runs(2000),
    );
  });

  it("print each group's tax less than one unit from its exact share, and exactly it where groups or whole-unit lines are rounded", () => {
    fc.assert(
      fc.property(cases, ([lineList, adjustmentList, tax]) => {
        const { taxGroups } = addUp(lineList, adjustmentList, tax, 0);
        const { groups } = byDecimals([lineList, adjustmentList, tax]);
        for (const group of taxGroups) {
          const share = groups[IDS.indexOf(group.category as (typeof IDS)[number])]!;
          expect(share.minus(group.tax).abs().lt(1)).toBe(true);
          if (settle(share).isInteger()) expect(group.tax).toBe(plain(settle(share)));
          if (group.percent === 0) expect(group.tax).toBe(0);
        }
      }),
      runs(2000),
    );
  });

  it("do not depend on the order of the lines", () => {
    const shuffled = lines.chain((lineList) =>
      fc.tuple(fc.constant(lineList), fc.shuffledSubarray(lineList, { minLength: lineList.length })),
    );
    fc.assert(
      fc.property(shuffled, adjustments, rules, ([lineList, otherwise], adjustmentList, tax) => {
        expect(addUp(otherwise, adjustmentList, tax, 0)).toEqual(addUp(lineList, adjustmentList, tax, 0));
      }),
    );
  });

  it("of a credit mirror those of the charge", () => {
    fc.assert(
      fc.property(lines, rules, (lineList, tax) => {
        const charge = addUp(lineList, [], tax, 0);
        const credit = addUp(
          lineList.map((line) => ({ ...line, amount: -line.amount })),
          [],
          tax,
          0,
        );
        expect([credit.tax + charge.tax, credit.total + charge.total]).toEqual([0, 0]);
        expect(credit.taxGroups.map((group, index) => group.tax + charge.taxGroups[index]!.tax)).toEqual(
          charge.taxGroups.map(() => 0),
        );
      }),
    );
  });
});
