/** Sources beside the figures in fixtures/published/nist-strd.json and closeout-accuracy.json. */
import fc from "fast-check";
import { jStat } from "jstat";
import { median as medianOf, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/closeout-accuracy.json";
import nist from "../../../fixtures/published/nist-strd.json";
import {
  betaQuantile,
  mean,
  median,
  shareInterval,
  standardDeviation,
  studentTQuantile,
} from "../../../src/estimating/closeout/statistics.js";
import { incompleteBeta } from "../../../src/estimating/risk/special.js";
import { runs } from "../../setup/runs.js";

const relative = (is: number, wanted: number) => Math.abs(is - wanted) / Math.abs(wanted);

/** P(at least k of n | p) = I_p(k, n - k + 1) (DLMF 8.17.5). */
const atLeast = (k: number, n: number, p: number) => incompleteBeta(p, k, n - k + 1);

function dataOf(name: string): number[] {
  const pairs = (first: number, low: number, high: number) => [first, ...Array.from({ length: 500 }, () => [low, high]).flat()];
  switch (name) {
    case "NumAcc1":
      return [10000001, 10000003, 10000002];
    case "NumAcc2":
      return pairs(1.2, 1.1, 1.3);
    case "NumAcc3":
      return pairs(1000000.2, 1000000.1, 1000000.3);
    case "NumAcc4":
      return pairs(10000000.2, 10000000.1, 10000000.3);
    default:
      return nist.michelso.values.map((value) => 299 + value / 1000);
  }
}

describe.each(nist.sets)("NIST StRD $name", ({ name, count, mean: m, sd, lag1, tolerance }) => {
  const data = dataOf(name);

  it("is the set that was certified: its lag-1 autocorrelation says so", () => {
    const off = data.map((value) => value - m);
    const [cross, square] = [
      off.slice(1).reduce((sum, value, i) => sum + value * off[i]!, 0),
      off.reduce((sum, v) => sum + v * v, 0),
    ];
    expect(data).toHaveLength(count);
    expect(relative(cross / square, lag1)).toBeLessThanOrEqual(Math.max(tolerance, 1e-9));
  });
  it("has the certified mean", () => expect(relative(mean(data)!, m)).toBeLessThanOrEqual(1e-15));
  it("has the certified standard deviation", () => expect(relative(standardDeviation(data)!, sd)).toBeLessThanOrEqual(tolerance));
});

describe("mean, spread and middle", () => {
  it("are those of simple-statistics for any figures", () => {
    const figures = fc.array(fc.double({ min: -1e9, max: 1e9, noNaN: true }), { minLength: 2, maxLength: 60 });
    fc.assert(
      fc.property(figures, (values) => {
        expect(median(values)).toBeCloseTo(medianOf(values), 3);
        const sd = sampleStandardDeviation(values);
        expect(Math.abs(standardDeviation(values)! - sd)).toBeLessThanOrEqual(1e-9 * Math.max(1, sd));
      }),
      runs(200),
    );
  });
  it("say nothing where there is nothing to say", () => {
    expect([mean([]), median([]), standardDeviation([]), standardDeviation([7])]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
    expect([mean([7]), median([7]), standardDeviation([7, 7])]).toEqual([7, 7, 0]);
  });
});

describe("Student's t", () => {
  it.each(published.studentT.values)("has the tabled $p quantile $t at $df degrees of freedom", ({ p, df, t }) => {
    expect(studentTQuantile(p, df)).toBeCloseTo(t, 3);
  });
  it("is jstat's", () => {
    for (const df of [1, 2, 3.5, 6, 9, 30, 200])
      for (const p of [0.001, 0.05, 0.2, 0.49, 0.5, 0.6, 0.8, 0.95, 0.999]) {
        expect(studentTQuantile(p, df)).toBeCloseTo(jStat.studentt.inv(p, df), 6);
      }
  });
  it("is the Cauchy distribution at one degree of freedom: quantile tan(pi (p - 1/2))", () => {
    for (const p of [0.01, 0.3, 0.7, 0.99]) expect(studentTQuantile(p, 1)).toBeCloseTo(Math.tan(Math.PI * (p - 0.5)), 10);
  });
});

describe("the beta quantile", () => {
  it("undoes the incomplete beta function", () => {
    // Below 1, b leaves too few numbers near 1 to tell chances apart.
    const shape = (min: number) => fc.double({ min, max: 400, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), shape(0.5), shape(1), (p, a, b) => {
        expect(incompleteBeta(betaQuantile(p, a, b), a, b)).toBeCloseTo(p, 8);
      }),
      runs(300),
    );
  });
  it("is jstat's", () => {
    for (const [a, b] of [
      [2, 3],
      [0.5, 4],
      [40, 7],
      [1, 1],
    ] as const)
      for (const p of [0.05, 0.5, 0.9]) expect(betaQuantile(p, a, b)).toBeCloseTo(jStat.beta.inv(p, a, b), 7);
  });
});

describe("how sure a counted share is", () => {
  it.each(published.shareInterval.values)("$within of $of lies between $low and $high ($basis)", ({ within, of, low, high }) => {
    const interval = shareInterval(within, of);
    expect(interval.low).toBeCloseTo(low, 4);
    expect(interval.high).toBeCloseTo(high, 4);
  });
  it("ends where the binomial tail is two and a half percent, and holds the share itself", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), fc.nat(300), (of, some) => {
        const within = some % (of + 1);
        const { low, high } = shareInterval(within, of);
        if (within > 0) expect(atLeast(within, of, low)).toBeCloseTo(0.025, 9);
        if (within < of) expect(1 - atLeast(within + 1, of, high)).toBeCloseTo(0.025, 9);
        expect(low).toBeLessThanOrEqual(within / of);
        expect(high).toBeGreaterThanOrEqual(within / of);
      }),
      runs(200),
    );
  });
  it.each(published.binomial.values)("P(at most $most of $of | $p) = $chance", ({ most, of, p, chance }) => {
    expect(1 - atLeast(most + 1, of, p)).toBeCloseTo(chance, 6);
    expect(jStat.binomial.cdf(most, of, p)).toBeCloseTo(chance, 6);
  });
});
