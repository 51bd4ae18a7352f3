import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/risk-scarce-parts.json";
import { betaBinomialMasses, binomialMasses, drawsMean } from "../../../src/estimating/risk/goodCounts.js";

const atLeast = (k: number, masses: Float64Array): number => masses.slice(k).reduce((sum, mass) => sum + mass, 0);
const binomialAtLeast = (k: number, n: number, p: number): number => atLeast(k, binomialMasses(n, p));

describe("good pieces among those bought", () => {
  it.each(published.fewestPieces)(
    `takes $pieces for $needed at share $share and level $level (${published.fewestPiecesBasis})`,
    ({ needed, share, level, pieces, achieved }) => {
      expect(binomialAtLeast(needed, pieces, share)).toBeCloseTo(achieved, 6);
      expect(achieved).toBeGreaterThanOrEqual(level);
      expect(binomialAtLeast(needed, pieces - 1, share)).toBeLessThan(level);
    },
  );

  it("counts as buying one at a time does: P(Bin(n, p) >= k) = P(NB(k, p) failures <= n - k)", () => {
    for (const [n, k, p] of [
      [4, 1, 0.5],
      [16, 8, 0.7],
      [14, 10, 0.9],
      [40, 3, 0.1],
    ] as const) {
      expect(binomialAtLeast(k, n, p)).toBeCloseTo(jStat.negbin.cdf(n - k, k, p), 9);
      expect(binomialAtLeast(k, n, p)).toBeCloseTo(1 - jStat.binomial.cdf(k - 1, n, p), 9);
    }
    const { needed, share, mean, basis } = published.draws;
    expect(drawsMean(needed, share), basis).toBeCloseTo(mean, 6);
  });

  it("lists the masses of the reference library, also where none is certain", () => {
    for (const [n, p] of [
      [1, 0.5],
      [12, 0.03],
      [200, 0.97],
      [0, 0.4],
    ] as const)
      binomialMasses(n, p).forEach((mass, good) => {
        expect(mass).toBeCloseTo(n === 0 ? 1 : jStat.binomial.pdf(good, n, p), 10);
      });
    expect([...binomialMasses(3, 1)]).toEqual([0, 0, 0, 1]);
    expect([...binomialMasses(3, 0)]).toEqual([1, 0, 0, 0]);
    expect(binomialMasses(5000, 0.5)[2500]).toBeCloseTo(0.0112833, 6);
  });

  it.each(published.successRun)(
    "takes $trials good ones in a row for reliability $reliability at confidence $confidence ($basis)",
    ({ reliability, confidence, exact, trials }) => {
      // n trials, all good, with chance R^n <= 1 - C: the same as at least one bad with chance >= C.
      expect(binomialAtLeast(1, trials, 1 - reliability)).toBeGreaterThanOrEqual(confidence);
      expect(binomialAtLeast(1, trials - 1, 1 - reliability)).toBeLessThan(confidence);
      expect(Math.log(1 - confidence) / Math.log(reliability)).toBeCloseTo(exact, 3);
    },
  );
});

describe("an uncertain share of good pieces", () => {
  it("is the mean of the binomial over the beta", () => {
    for (const [n, good, bad] of [
      [5, 3, 2],
      [12, 0.7, 1.4],
      [9, 40, 3],
      [3, 0.5, 0.5],
    ] as const)
      betaBinomialMasses(n, good, bad).forEach((mass, g) => {
        const direct = Math.exp(jStat.combinationln(n, g) + jStat.betaln(g + good, n - g + bad) - jStat.betaln(good, bad));
        expect(mass).toBeCloseTo(direct, 9);
      });
    // Beta(1, 1): every number is as likely as any other.
    for (const mass of betaBinomialMasses(9, 1, 1)) expect(mass).toBeCloseTo(0.1, 12);
  });

  it("comes to the known share as the count behind it grows, and promises less until then", () => {
    const known = binomialAtLeast(4, 7, 0.8);
    expect(atLeast(4, betaBinomialMasses(7, 8e6, 2e6))).toBeCloseTo(known, 5);
    expect(atLeast(4, betaBinomialMasses(7, 8, 2))).toBeLessThan(known);
  });
});
