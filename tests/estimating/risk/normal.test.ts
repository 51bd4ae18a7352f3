import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/risk-times.json";
import { incompleteBeta, lnGamma, normalCdf } from "../../../src/estimating/risk/special.js";

describe("the normal distribution", () => {
  it.each(published.z.values)(`has its %d quantile at %d (${published.z.source})`, (p, z) => {
    expect(normalCdf(z)).toBeCloseTo(p, 6);
    expect(normalCdf(-z)).toBeCloseTo(1 - p, 6);
  });

  it("agrees with the reference library", () => {
    for (let z = -8; z <= 8; z += 0.173) expect(normalCdf(z)).toBeCloseTo(jStat.normal.cdf(z, 0, 1), 13);
  });

  it("keeps its figures in the far tail and has no limits but 0 and 1", () => {
    // P(Z < -10) = 7.619853e-24 (from memory, common tables).
    expect(normalCdf(-10) / 7.619853e-24).toBeCloseTo(1, 6);
    expect([normalCdf(-40), normalCdf(40)]).toEqual([0, 1]);
  });
});

describe("the incomplete beta function", () => {
  it("agrees with the reference library, from flat to steep", () => {
    for (const [a, b] of [
      [1, 5],
      [5, 1],
      [2.4, 3.6],
      [0.5, 0.5],
      [40, 3],
      [200, 300],
      [1, 1],
    ] as const)
      for (let x = 0; x <= 1; x += 0.05) expect(incompleteBeta(x, a, b)).toBeCloseTo(jStat.ibeta(x, a, b), 7);
  });

  it("keeps its figures where a power is the closed form", () => {
    for (let x = 0.01; x < 1; x += 0.037) {
      expect(incompleteBeta(x, 5, 1) / x ** 5).toBeCloseTo(1, 12);
      expect(incompleteBeta(x, 1, 5)).toBeCloseTo(1 - (1 - x) ** 5, 13);
    }
  });

  it("rests on a gamma function that agrees with the reference library", () => {
    for (const x of [0.1, 0.5, 1, 1.5, 3.7, 10, 171, 1e4]) expect(lnGamma(x) - jStat.gammaln(x)).toBeCloseTo(0, 8);
  });
});
