import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/risk-may-be-needed.json";
import { assess } from "../../../src/estimating/risk/assess.js";
import { distributionOf } from "../../../src/estimating/risk/distribution.js";
import { bought, found, job, line } from "./jobShapes.js";

const threeItems = job(
  0,
  0,
  [],
  published.items.map(([p, cost]) => found(p!, 100 * cost!, [])),
);

describe("work that may be needed", () => {
  it(`has the mean, sd and every chance of the published case (${published.about})`, () => {
    const total = distributionOf(threeItems);
    expect(total.expected / 100).toBeCloseTo(published.mean, 9);
    expect(total.sd / 100).toBeCloseTo(published.sd, 6);
    for (const [cost, chance] of published.atMost) {
      expect(total.atMost(100 * cost!)).toBeCloseTo(chance!, 12);
      expect(total.atMost(100 * cost! - 1)).toBeLessThan(chance! - 0.005);
    }
    for (const [p, cost] of published.quantiles) expect(total.quantile(p!)).toBe(100 * cost!);
  });

  it("costs nothing in half the jobs, and 250.00 or less in four of five", () => {
    expect(assess(threeItems)).toMatchObject({ p10: 0, p50: 0, p80: 25_000, p95: 40_000, expected: 12_000 });
  });

  it.each(published.fixedPrice)(
    "at a fixed price of $price loses in $chanceOfLoss of the jobs, $expectedLoss on average",
    ({ price, chanceOfLoss, expectedLoss }) => {
      const { tried } = assess(threeItems, { price: 100 * price });
      expect(tried!.chanceOfLoss).toBeCloseTo(chanceOfLoss, 12);
      expect(tried!.expectedLoss).toBe(Math.round(100 * expectedLoss));
    },
  );

  it("shares one chance between the labour and the part of a group", () => {
    const total = distributionOf(job(0, 1000, [], [found(0.4, 5000, [line(30, 30, 30), line(60, 60, 60)])]));
    expect([total.quantile(0.59), total.quantile(0.61)]).toEqual([1000, 1000 + 5000 + 9000]);
    expect(total.atMost(1000)).toBeCloseTo(0.6, 12);
  });

  it("lets the part of a group cost one thing or another", () => {
    const part = bought([0.75, 4000], [0.25, 9000]);
    const total = distributionOf(job(0, 0, [], [found(0.4, 100, [], [part])]));
    expect(total.atMost(0)).toBeCloseTo(0.6, 12);
    expect(total.atMost(4100)).toBeCloseTo(0.6 + 0.4 * 0.75, 12);
    expect(total.atMost(9100)).toBe(1);
  });

  it("is left out at probability 0 and planned at probability 1", () => {
    const work = [line(20, 30, 60)];
    const sure = distributionOf(job(0.2, 500, [...work, line(10, 20, 40)], [found(0, 7000, [line(60, 90, 200)])]));
    const folded = distributionOf(job(0.2, 400, work, [found(1, 100, [line(10, 20, 40)])]));
    for (const p of [0.1, 0.5, 0.8, 0.95]) expect(folded.quantile(p)).toBe(sure.quantile(p));
  });

  it("does not lose a rare, very dear fault, nor let it blur the rest", () => {
    const plain = job(0.2, 5000, [line(60, 90, 200)]);
    const risky = { ...plain, ifFound: [found(0.001, 10_000_000, [])] };
    const [without, total] = [distributionOf(plain), distributionOf(risky)];
    for (const p of [0.1, 0.5, 0.8, 0.95])
      expect(Math.abs(total.quantile(p) / without.quantile(p / 0.999) - 1)).toBeLessThan(0.001);
    expect(total.quantile(0.9995)).toBeGreaterThan(9_900_000);
    expect(total.expected - without.expected).toBeCloseTo(10_000, 6);
    expect(total.shortfall(100_000) / 9900).toBeCloseTo(1, 1);
  });
});

describe("a job whose planned work is certain", () => {
  it("costs that amount, to the cent, whenever nothing turns up and the parts cost what they usually do", () => {
    const model = job(0, 7000, [], [found(0.3, 0, [line(30, 60, 200)])], [bought([0.9, 3000], [0.1, 8000])]);
    const total = distributionOf(model);
    expect(total.atMost(10_000)).toBeCloseTo(0.7 * 0.9, 9);
    expect([total.atMost(9999), total.quantile(0.6)]).toEqual([0, 10_000]);
  });
});
