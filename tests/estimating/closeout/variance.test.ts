/** Sources beside the figures in fixtures/published/closeout-standard-cost.json. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/closeout-standard-cost.json";
import { labourVariance, partsVariance } from "../../../src/estimating/closeout/variance/variance.js";
import { priceMilli } from "../../../src/estimating/money/scales.js";

const cents = (dollars: number) => Math.round(dollars * 100);
const milli = (hours: number) => hours * 60_000;
const [first, second, wrong] = published.worked as unknown as [
  Worked,
  Worked,
  Worked & { wrongEfficiency: number; wrongTotal: number },
];
interface Worked {
  source: string;
  actualHours: number;
  actualRate?: number;
  standardHours: number;
  standardRate: number;
  rate: number;
  efficiency: number;
  total: number;
}

const split = ({ actualHours, standardHours, standardRate }: Worked, actualAmount: number) =>
  labourVariance(
    { amount: priceMilli(milli(standardHours), cents(standardRate)), rate: cents(standardRate) },
    { amount: actualAmount, milli: milli(actualHours) },
  );

describe("a labour variance", () => {
  it.each([first, second])("is split as in $source", (worked) => {
    const { rate, efficiency } = split(worked, priceMilli(milli(worked.actualHours), cents(worked.actualRate!)));
    expect([rate, efficiency, rate + efficiency]).toEqual([cents(worked.rate), cents(worked.efficiency), cents(worked.total)]);
  });

  it("values efficiency at the standard rate, where a public example does not", () => {
    const actual = cents(wrong.standardRate * wrong.actualHours + wrong.rate);
    const { rate, efficiency } = split(wrong, actual);
    expect([rate, efficiency, rate + efficiency]).toEqual([cents(wrong.rate), cents(wrong.efficiency), cents(wrong.total)]);
    expect(efficiency).not.toBe(cents(wrong.wrongEfficiency));
    expect(rate + efficiency).not.toBe(cents(wrong.wrongTotal));
  });

  it("sums to actual less allowed, whatever is rounded", () => {
    const amount = fc.integer({ min: 0, max: 10 ** 9 });
    fc.assert(
      fc.property(
        amount,
        fc.integer({ min: 0, max: 10 ** 6 }),
        amount,
        fc.integer({ min: 0, max: 10 ** 8 }),
        (allowed, rate, actual, time) => {
          const halves = labourVariance({ amount: allowed, rate }, { amount: actual, milli: time });
          expect(halves.rate + halves.efficiency).toBe(actual - allowed);
          expect(Number.isInteger(halves.rate) && Number.isInteger(halves.efficiency)).toBe(true);
        },
      ),
    );
  });
});

describe("a parts variance", () => {
  // Ten pieces at 0.768: 7.68. Twelve used, at 0.80.
  const allowed = { amount: 768, pieces: 10, worthE4: 7_680_000n };

  it("is price on the pieces used and usage at the price allowed", () => {
    expect(partsVariance(allowed, { pieces: 12, amount: 960 })).toEqual({ price: 38, usage: 154, flexed: 922 });
  });
  it("is nothing when all went as allowed", () => {
    expect(partsVariance(allowed, { pieces: 10, amount: 768 })).toMatchObject({ price: 0, usage: 0 });
  });
  it("is usage alone where no piece was allowed, and where none was used", () => {
    expect(partsVariance({ amount: 0, pieces: 0, worthE4: 0n }, { pieces: 2, amount: 99 })).toMatchObject({
      price: 0,
      usage: 99,
    });
    expect(partsVariance(allowed, { pieces: 0, amount: 0 })).toMatchObject({ price: 0, usage: -768 });
  });
});
