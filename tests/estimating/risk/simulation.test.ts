/** The distribution against a million simulated jobs of each shape. */
import { describe, expect, it } from "vitest";
import { distributionOf } from "../../../src/estimating/risk/distribution.js";
import { JOB_SHAPES } from "./jobShapes.js";
import { quantileOf, simulate } from "./simulation.js";

const JOBS = 1_000_000;
/** Chances the seed of a shape has of being unlucky at a quantile that lies on a step, in probability. */
const NOISE = 4 * Math.sqrt(0.25 / JOBS);

function meanOf(jobs: Float64Array, of: (cost: number) => number): number {
  let sum = 0;
  for (let at = 0; at < jobs.length; at++) sum += of(jobs[at]!);
  return sum / jobs.length;
}

describe("a million simulated jobs", () => {
  it.each(Object.entries(JOB_SHAPES))("cost what is foreseen: %s", (_, model) => {
    const total = distributionOf(model);
    const jobs = simulate(model, JOBS, 20_261_125);
    for (const p of [0.5, 0.8, 0.95]) {
      const foreseen = total.quantile(p);
      const off = foreseen / quantileOf(jobs, p) - 1;
      expect(Math.abs(off), `P${100 * p} off by ${(100 * off).toFixed(3)} %`).toBeLessThan(0.005);
    }
    const mean = meanOf(jobs, (cost) => cost);
    const variance = meanOf(jobs, (cost) => (cost - mean) ** 2);
    const fourth = meanOf(jobs, (cost) => (cost - mean) ** 4);
    expect(Math.abs(mean - total.expected)).toBeLessThan(5 * Math.sqrt(variance / JOBS));
    expect(Math.abs(variance - total.sd ** 2)).toBeLessThan(6 * Math.sqrt((fourth - variance ** 2) / JOBS));
    const price = quantileOf(jobs, 0.7) * 1.02;
    const lost = meanOf(jobs, (cost) => Math.max(0, cost - price));
    expect(Math.abs(total.shortfall(price) - lost)).toBeLessThan(0.01 * total.sd);
    const covered = meanOf(jobs, (cost) => (cost <= price ? 1 : 0));
    expect(Math.abs(total.atMost(price) - covered)).toBeLessThan(0.005 + NOISE);
  });
});
