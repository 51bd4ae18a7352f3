import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/risk-times.json";
import { distributionOf } from "../../../src/estimating/risk/distribution.js";
import { pertMean, pertShape, pertThird, pertVariance } from "../../../src/estimating/risk/line.js";
import { incompleteBeta, normalCdf } from "../../../src/estimating/risk/special.js";
import { job, line } from "./jobShapes.js";

const { pert, textbookPath, constructionPath } = published;

describe("a three-point time", () => {
  it(`has the published mean, sd and quantiles (${pert.source})`, () => {
    expect(pertMean(pert)).toBe(pert.mean);
    expect(Math.sqrt(pertVariance(pert))).toBeCloseTo(pert.sd, 6);
    const { alpha, beta } = pertShape(pert)!;
    for (const [p, x] of pert.quantiles)
      expect(incompleteBeta((x! - pert.low) / (pert.high - pert.low), alpha, beta)).toBeCloseTo(p!, 6);
  });

  it("has the moments of the beta distribution of the reference library", () => {
    for (const points of [
      { low: 0, likely: 0, high: 10 },
      { low: 2, likely: 10, high: 10 },
      { low: 5, likely: 7, high: 40 },
      { low: 1, likely: 2, high: 3 },
    ]) {
      const { alpha, beta } = pertShape(points)!;
      const width = points.high - points.low;
      expect(alpha + beta).toBeCloseTo(6, 12);
      expect(pertMean(points)).toBeCloseTo(points.low + width * jStat.beta.mean(alpha, beta), 9);
      expect(pertVariance(points)).toBeCloseTo(width * width * jStat.beta.variance(alpha, beta), 9);
    }
  });

  it("leans as its third cumulant says", () => {
    // Skewness of Beta(1, 5): 2 (b - a) sqrt(a + b + 1) / ((a + b + 2) sqrt(a b)) = 1.183216.
    const points = { low: 0, likely: 0, high: 1 };
    expect(pertThird(points) / pertVariance(points) ** 1.5).toBeCloseTo(1.183216, 6);
    expect(pertThird({ low: 0, likely: 5, high: 10 })).toBe(0);
    expect(pertThird({ low: 0, likely: 9, high: 10 })).toBeLessThan(0);
    // And of the density of the reference library, in a thousand steps.
    const [low, likely, high] = [10, 20, 90];
    const mean = pertMean({ low, likely, high });
    const third = Array.from({ length: 1000 }, (_, at) => (at + 0.5) / 1000).reduce(
      (sum, u) => sum + (jStat.beta.pdf(u, 1.5, 4.5) * (low + 80 * u - mean) ** 3) / 1000,
      0,
    );
    expect(Math.abs(pertThird({ low, likely, high }) / third - 1)).toBeLessThan(0.001);
  });

  it("is certain when low and high are one", () => {
    const sure = { low: 7, likely: 7, high: 7 };
    expect([pertMean(sure), pertVariance(sure), pertThird(sure), pertShape(sure)]).toEqual([7, 0, 0, undefined]);
  });
});

describe("a path of activities", () => {
  const days = (amount: number) => amount / 100;

  it(`has the textbook's chance by the normal curve (${textbookPath.source})`, () => {
    const variance = textbookPath.activities.reduce((sum, [low, , high]) => sum + ((high! - low!) / 6) ** 2, 0);
    expect(variance).toBeCloseTo(textbookPath.normalVariance, 12);
    const z = (textbookPath.within - textbookPath.mean) / Math.sqrt(variance);
    expect(normalCdf(z)).toBeCloseTo(textbookPath.normalExact, 6);
    expect(normalCdf(Math.round(100 * z) / 100)).toBeCloseTo(textbookPath.printed, 4);
  });

  it("is less certain than the textbook says when the betas are summed exactly", () => {
    const path = distributionOf(
      job(
        0,
        0,
        textbookPath.activities.map(([low, likely, high]) => line(low!, likely!, high!)),
      ),
    );
    expect(days(path.expected)).toBeCloseTo(textbookPath.mean, 9);
    expect(days(path.sd)).toBeCloseTo(textbookPath.sd, 4);
    expect(path.atMost(100 * textbookPath.within)).toBeCloseTo(textbookPath.exact, 2);
    expect(path.atMost(100 * textbookPath.within)).toBeLessThan(textbookPath.printed - 0.02);
    for (const [p, x] of textbookPath.quantiles) expect(Math.abs(days(path.quantile(p!)) / x! - 1)).toBeLessThan(0.0005);
  });

  it(`keeps the construction example (${constructionPath.source})`, () => {
    const z = (constructionPath.within - constructionPath.mean) / Math.sqrt(constructionPath.variance);
    expect(normalCdf(z)).toBeCloseTo(constructionPath.chance, 6);
  });
});
