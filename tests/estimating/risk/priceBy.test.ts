/** What a price by risk comes to and why: by hand from the percentiles of one invented job. */
import { describe, expect, it } from "vitest";
import { assess, percentile } from "../../../src/estimating/risk/assess.js";
import { ifFound, momentsOf, twoPoint } from "../../../src/estimating/risk/cumulants.js";
import { distributionOf } from "../../../src/estimating/risk/distribution.js";
import { allowancesFor, priceBy } from "../../../src/estimating/risk/pricing.js";
import { bought, found, job, line } from "./jobShapes.js";

const wide = line(60, 90, 300);
const model = job(0.2, 5000, [wide], [found(0.4, 8000, [line(30, 60, 120)])], [bought([0.8, 4000], [0.2, 15_000])]);
const total = distributionOf(model);
const mean = Math.ceil(total.expected - 1e-6);
const p80 = percentile(total, 0.8);
const fixed = { is: "fixed price", confidencePercent: 80 } as const;
const ceiling = { is: "time and parts with ceiling", confidencePercent: 80 } as const;

describe("a price by risk", () => {
  it("is what the policy asks for, and says why where it had to be more", () => {
    expect(priceBy(fixed, total, 10_000)).toMatchObject({ price: p80, margin: 0 });
    expect(priceBy(fixed, total, 10_000)).not.toHaveProperty("raisedTo");
    expect(priceBy(fixed, total, p80 + 500)).toMatchObject({ price: p80 + 500, margin: 0, raisedTo: "deterministic price" });
    const half = Math.ceil(total.expected / 0.5 - 1e-6);
    expect(priceBy({ ...fixed, minimumMarginPercent: 50 }, total, 10_000)).toMatchObject({
      ...{ price: half, margin: half - p80, raisedTo: "minimum margin" },
    });
    expect(priceBy({ ...fixed, minimumMarginPercent: 50 }, total, p80 + 500).margin).toBe(half - p80 - 500);
    expect(priceBy({ ...fixed, minimumMarginPercent: 1 }, total, 10_000)).not.toHaveProperty("raisedTo");
    // Half of such jobs cost less than the mean: where no margin is asked for, a price may lie below it.
    const p50 = percentile(total, 0.5);
    expect(p50).toBeLessThan(total.expected);
    expect(priceBy({ ...fixed, confidencePercent: 50 }, total, 10_000).price).toBe(p50);
    expect(priceBy({ ...fixed, confidencePercent: 50, minimumMarginPercent: 0 }, total, 10_000).price).toBe(mean);
  });

  it("under a ceiling is what is counted, and the ceiling what the policy asks for", () => {
    expect(priceBy(ceiling, total, 10_000)).toMatchObject({ price: 10_000, ceiling: p80, margin: 0 });
    expect(priceBy(ceiling, total, p80 + 9)).toMatchObject({ price: p80 + 9, ceiling: p80 + 9, raisedTo: "deterministic price" });
    expect(priceBy(fixed, total, 10_000)).not.toHaveProperty("ceiling");
  });

  it("of the expected cost and a share has that share as its margin", () => {
    const quarter = Math.ceil(total.expected * 1.25 - 1e-6);
    expect(priceBy({ is: "expected cost plus", percent: 25 }, total, 10_000)).toMatchObject({
      ...{ price: quarter, margin: quarter - mean },
    });
  });

  it("is tried against what the job costs the shop, and keeps its margin over that", () => {
    const cost = distributionOf({ ...model, fixed: 45_000 });
    const dear = Math.ceil(cost.expected / 0.9 - 1e-6);
    expect(priceBy({ ...fixed, minimumMarginPercent: 10 }, total, 10_000, cost)).toMatchObject({
      ...{ price: dear, raisedTo: "minimum margin" },
      tried: { price: dear, chanceOfLoss: 1 - cost.atMost(dear), expectedLoss: Math.round(cost.shortfall(dear)) },
    });
  });
});

it("says of a price what it holds against each risk, and all of it is the difference", () => {
  const [labour, sourcing] = [(60 - 2 * 90 + 300) / 6, 0.8 * 4000 + 0.2 * 15_000 - 4000];
  // 0.4 of (30 + 4 x 60 + 120) / 6 = 65 minutes at 1.00 and 80.00.
  const maybe = 0.4 * (6500 + 8000);
  for (const [margin, certain] of [
    [9000, 0],
    [9000, 700],
    [0, 0],
  ] as const) {
    const allowances = allowancesFor(model, margin, certain);
    expect(allowances.map(({ is }) => is)).toEqual(["labour", "sourcing", "if found"]);
    expect(allowances.map(({ expected }) => Math.round(expected * 1000) / 1000)).toEqual([
      ...[labour * 100, sourcing, maybe + certain].map((one) => Math.round(one * 1000) / 1000),
    ]);
    expect(allowances.reduce((sum, { amount }) => sum + amount, 0)).toBe(margin);
    for (const { amount } of allowances) expect(amount).toBeGreaterThanOrEqual(0);
  }
  // Nothing beyond what is expected: each allows for its own.
  expect(allowancesFor(model, labour * 100 + sourcing + maybe).map(({ amount }) => amount)).toEqual([
    labour * 100,
    sourcing,
    maybe,
  ]);
  expect(allowancesFor({ ...model, charged: "expected" }, 9000)[0]!.expected).toBe(0);
  expect(allowancesFor(job(0, 500, []), 0).map(({ amount }) => amount)).toEqual([0, 0, 0]);
});

it("draws its curve from the first half percent to the last, in steps alike, and none of fewer than two points", () => {
  const curve = assess(model, { curvePoints: 3 }).curve;
  const [low, high] = [Math.floor(total.quantile(0.005)), Math.ceil(total.quantile(0.995))];
  expect(curve.map(({ amount }) => amount)).toEqual([low, Math.round((low + high) / 2), high]);
  expect(curve.map(({ chance }) => chance)).toEqual(curve.map(({ amount }) => total.atMost(amount)));
  expect([0, 1].map((curvePoints) => assess(model, { curvePoints }).curve)).toEqual([[], []]);
  const { p10, p50, p80: most, p95, expected, sd } = assess(model);
  expect([p10, p50, most, p95]).toEqual([0.1, 0.5, 0.8, 0.95].map((p) => percentile(total, p)));
  expect([expected, sd]).toEqual([Math.round(total.expected), Math.round(total.sd)]);
});

it("expects of a job the sum of what is expected of each thing in it, and of its parts their lean", () => {
  const beside = line(60, 120, 400, false);
  const all = distributionOf(job(0.2, 5000, [wide, beside], model.ifFound, model.sourcing));
  // 120 and 940 / 6 minutes at 1.00, 0.4 of 65 minutes and 80.00, 0.8 of 40.00 and 0.2 of 150.00.
  expect(all.expected).toBeCloseTo(5000 + 12_000 + 94_000 / 6 + 5800 + 6200, 6);
  const chances = [
    { probability: 0.3, amount: 10 },
    { probability: 0.7, amount: 40 },
  ];
  const moments = momentsOf(chances);
  for (const [is, wanted] of [
    [moments.mean, 31],
    [moments.variance, 0.3 * 21 ** 2 + 0.7 * 9 ** 2],
    [moments.third, 0.7 * 9 ** 3 - 0.3 * 21 ** 3],
  ] as const)
    expect(is).toBeCloseTo(wanted, 9);
  expect(twoPoint(moments)).toEqual(
    chances.map(({ probability, amount }) => {
      return { probability: expect.closeTo(probability, 9), amount: expect.closeTo(amount, 9) };
    }),
  );
  const maybe = ifFound(moments, 0.4);
  const outright = momentsOf([
    { probability: 0.6, amount: 0 },
    ...chances.map((each) => ({ ...each, probability: 0.4 * each.probability })),
  ]);
  for (const of of ["mean", "variance", "third"] as const) expect(maybe[of]).toBeCloseTo(outright[of], 6);
});

it("has a chance for every amount, rising to one, and less short the higher the price", () => {
  const [low, high] = [0, 2 * total.quantile(0.999)];
  const steps = Array.from({ length: 600 }, (_, at) => low + ((high - low) * at) / 599);
  for (const of of [distributionOf(model), distributionOf({ ...model, conditionCv: 0 }), distributionOf(job(0, 100, [wide]))]) {
    const chances = steps.map((amount) => of.atMost(amount));
    const short = steps.map((amount) => of.shortfall(amount));
    expect([chances[0], chances.at(-1)]).toEqual([0, expect.closeTo(1, 6)]);
    expect(chances.slice(1).filter((chance, at) => !(chance >= chances[at]! - 1e-3))).toEqual([]);
    expect(short.slice(1).filter((amount, at) => !(amount <= short[at]! + 1))).toEqual([]);
    expect(short[0]).toBeCloseTo(of.expected, 6);
  }
});
