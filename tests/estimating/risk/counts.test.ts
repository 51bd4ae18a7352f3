import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/risk-scarce-parts.json";
import { betaBinomialAtLeast, betaBinomialMasses } from "../../../src/estimating/risk/betaBinomial.js";
import { binomialAtLeast, binomialMasses, fewestPieces } from "../../../src/estimating/risk/binomial.js";
import { drawsMean, drawsVariance, failuresAtMost } from "../../../src/estimating/risk/negativeBinomial.js";
import { fewestSpares, poissonAtMost } from "../../../src/estimating/risk/poisson.js";

describe("good pieces among those bought", () => {
  it.each(published.fewestPieces)(
    `takes $pieces for $needed at share $share and level $level (${published.fewestPiecesBasis})`,
    ({ needed, share, level, pieces, achieved }) => {
      expect(fewestPieces(needed, share, level)).toBe(pieces);
      expect(binomialAtLeast(needed, pieces, share)).toBeCloseTo(achieved, 6);
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
      expect(binomialAtLeast(k, n, p)).toBeCloseTo(failuresAtMost(n - k, k, p), 12);
      expect(failuresAtMost(n - k, k, p)).toBeCloseTo(jStat.negbin.cdf(n - k, k, p), 9);
      expect(binomialAtLeast(k, n, p)).toBeCloseTo(1 - jStat.binomial.cdf(k - 1, n, p), 9);
    }
    const { needed, share, mean, variance, basis } = published.draws;
    expect([drawsMean(needed, share), drawsVariance(needed, share)], basis).toEqual([
      expect.closeTo(mean, 6),
      expect.closeTo(variance, 6),
    ]);
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
      expect(fewestPieces(1, 1 - reliability, confidence)).toBe(trials);
      expect(Math.log(1 - confidence) / Math.log(reliability)).toBeCloseTo(exact, 3);
    },
  );

  it("has no number of pieces for a level of 1 or a share of 0, and exactly what is needed for a share of 1", () => {
    expect([fewestPieces(2, 0.9, 1), fewestPieces(2, 0, 0.9), fewestPieces(2, 1, 1), fewestPieces(0, 0.5, 0.9)]).toEqual([
      undefined,
      undefined,
      2,
      0,
    ]);
  });
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
    expect(betaBinomialAtLeast(4, 7, 8e6, 2e6)).toBeCloseTo(known, 5);
    expect(betaBinomialAtLeast(4, 7, 8, 2)).toBeLessThan(known);
    expect([betaBinomialAtLeast(0, 3, 1, 1), betaBinomialAtLeast(4, 3, 1, 1)]).toEqual([1, 0]);
  });
});

describe("things that turn up at a known mean number", () => {
  it.each(published.spares)(
    `needs $spares spares for a mean of $mean at level $level (${published.sparesBasis})`,
    ({ mean, level, spares, achieved }) => {
      expect(fewestSpares(mean, level)).toBe(spares);
      expect(poissonAtMost(spares, mean)).toBeCloseTo(achieved, 4);
      expect(poissonAtMost(spares, mean)).toBeCloseTo(jStat.poisson.cdf(spares, mean), 9);
    },
  );
});
