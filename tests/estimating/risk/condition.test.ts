import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/risk-times.json";
import { conditionSigma, conditionStrata } from "../../../src/estimating/risk/condition.js";
import { distributionOf } from "../../../src/estimating/risk/distribution.js";
import { found, job, line } from "./jobShapes.js";

const { fentonWilkinson, conditionMixture, correlatedSum } = published;
const sure = (minutes: number) => line(minutes, minutes, minutes);

describe("the unit's condition", () => {
  it("has mean 1 and the masses of the lognormal distribution of the reference library", () => {
    for (const cv of [0.05, 0.25, 0.6]) {
      const sigma = conditionSigma(cv);
      const strata = conditionStrata(cv, 12);
      expect(strata.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(1, 12);
      expect(strata.reduce((sum, { mass, mean }) => sum + mass * mean, 0)).toBeCloseTo(1, 12);
      let upTo = 0;
      for (const { mass, mean, from, to } of strata.slice(0, -1)) {
        upTo += mass;
        expect(upTo).toBeCloseTo(jStat.lognormal.cdf(to, (-sigma * sigma) / 2, sigma), 9);
        expect(mean).toBeLessThan(to);
        if (mass < upTo) expect(mean).toBeGreaterThan(from);
      }
    }
  });

  it("leaves everything at 1 when it has no spread", () => {
    expect(conditionStrata(0, 12)).toEqual([{ mass: 1, mean: 1, from: 1, to: 1 }]);
  });

  it(`makes fixed hours lognormal (${fentonWilkinson.source})`, () => {
    const cv = Math.sqrt(fentonWilkinson.variance) / fentonWilkinson.mean;
    expect(conditionSigma(cv)).toBeCloseTo(fentonWilkinson.s, 6);
    expect(Math.log(fentonWilkinson.mean) - conditionSigma(cv) ** 2 / 2).toBeCloseTo(fentonWilkinson.mu, 6);
    const total = distributionOf(job(cv, 0, [sure(fentonWilkinson.mean)]));
    expect(total.sd / 100).toBeCloseTo(Math.sqrt(fentonWilkinson.variance), 9);
    for (const [p, x] of fentonWilkinson.quantiles) expect(Math.abs(total.quantile(p!) / 100 / x! - 1)).toBeLessThan(0.0025);
  });

  it(`meets the closed form of a fault that may turn up within 0.25 % (${conditionMixture.source})`, () => {
    const total = distributionOf(job(0.25, 20_000, [sure(600)], [found(0.3, 8000, [sure(150)])]));
    for (const [p, x] of conditionMixture.quantiles) expect(Math.abs(total.quantile(p!) / 100 / x! - 1)).toBeLessThan(0.0025);
  });

  it(`adds up the overruns of one unit, where separate lines average theirs out (${correlatedSum.source})`, () => {
    // A symmetrical beta-PERT line 0 / m / 2m has sd m / sqrt(7).
    const symmetrical = correlatedSum.sds.map((sd) => line(0, sd * Math.sqrt(7), 2 * sd * Math.sqrt(7)));
    expect(distributionOf(job(0, 0, symmetrical)).sd / 100).toBeCloseTo(correlatedSum.apart, 4);
    const fixedHours = correlatedSum.sds.map((sd) => sure(10 * sd));
    expect(distributionOf(job(0.1, 0, fixedHours)).sd / 100).toBeCloseTo(correlatedSum.together, 9);
  });
});
