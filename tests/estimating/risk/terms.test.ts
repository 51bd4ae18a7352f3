/** What a risk model is taken apart into, by hand: one minute costs 1.00, amounts are demo. */
import { describe, expect, it } from "vitest";
import { momentsOf } from "../../../src/estimating/risk/cumulants.js";
import { distributionOf } from "../../../src/estimating/risk/distribution.js";
import { deterministicPrice, pricedMinutes, type RiskModel } from "../../../src/estimating/risk/model.js";
import { termsOf } from "../../../src/estimating/risk/terms.js";
import { bought, found, job, line } from "./jobShapes.js";

describe("the price of a model", () => {
  const time = { low: 10, likely: 20, high: 60 };

  it("has each time at its likely minutes, or at its mean where the book charges that", () => {
    expect(pricedMinutes(time, {})).toBe(20);
    expect(pricedMinutes(time, { charged: "expected" })).toBe((10 + 80 + 60) / 6);
    const model = job(0.2, 500, [line(10, 20, 60)], [found(0.5, 900, [])], [bought([0.9, 700], [0.1, 2000])]);
    expect(deterministicPrice(model)).toBe(500 + 2000 + 700);
    expect(deterministicPrice({ ...model, charged: "expected" })).toBe(500 + 2500 + 700);
  });
});

describe("what is certain of a job", () => {
  const withNeeds = (more: Partial<RiskModel>): RiskModel => ({
    ...job(0, 1000, []),
    ifFound: [
      { ...found(0.5, 200, []), id: "a", needs: ["place"] },
      { ...found(0.5, 50, []), id: "b", needs: [] },
    ],
    shared: [{ id: "place", labour: [], amount: 100 }],
    ...more,
  });

  it("is what is fixed, and the least that any set of faults saves, each with only what it needs", () => {
    expect(termsOf(withNeeds({})).fixed).toBe(1000);
    // b alone saves 350, a alone 200 with its place, both nothing.
    expect(termsOf(withNeeds({ beyond: [0, -500, -400, 0] })).fixed).toBe(1000 - 350);
    expect(termsOf(withNeeds({ beyond: [0, -500, -200, 0] })).fixed).toBe(1000 - 200);
  });

  it("is also what is certain to be found, with what it needs, and nothing of what never is", () => {
    const chances = (a: number, b: number) =>
      withNeeds({ ifFound: withNeeds({}).ifFound.map((each, at) => ({ ...each, probability: at === 0 ? a : b })) });
    const of = (model: RiskModel) => {
      const { fixed, lumps, clusters } = termsOf(model);
      return [fixed, lumps.length, clusters.length];
    };
    expect(of(chances(1, 0.5))).toEqual([1300, 1, 0]);
    expect(of(chances(0, 0.5))).toEqual([1000, 1, 0]);
    expect(of(chances(0.5, 0))).toEqual([1000, 0, 1]);
    expect(of(chances(1, 1))).toEqual([1350, 0, 0]);
    // Of the sets only those are left that may be: with a found, b alone adds 5, or 7.
    const beyond = [0, 10, 20, 17];
    expect(of({ ...chances(1, 0.5), beyond })).toEqual([1300, 0, 1]);
    const total = distributionOf({ ...chances(1, 0.5), beyond });
    expect(total.expected).toBeCloseTo(1300 + 10 / 2 + (50 + 17) / 2, 9);
    expect(distributionOf({ ...chances(0, 0.5), beyond }).expected).toBeCloseTo(1000 + (50 + 20) / 2, 9);
  });
});

describe("a fault with parts that may cost one thing or another", () => {
  const part = bought([0.5, 1000], [0.3, 2000], [0.2, 5000]);
  const { mean, variance, third } = momentsOf(part.outcomes);

  it("is exact for few combinations, and by its moments for many", () => {
    const of = (count: number) => termsOf(job(0, 0, [], [found(0.5, 100, [], Array(count).fill(part))])).lumps[0]!;
    expect([of(1), of(2), of(3)].map(({ otherChances }) => otherChances.length)).toEqual([3, 9, 2]);
    for (const count of [1, 2, 3, 4]) {
      expect(of(count).other.mean).toBeCloseTo(100 + count * mean, 6);
      expect(of(count).other.variance / (count * variance)).toBeCloseTo(1, 9);
      expect(of(count).other.third / (count * third)).toBeCloseTo(1, 6);
    }
  });
});
