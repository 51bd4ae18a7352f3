/** What must hold for every job. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/risk-scarce-parts.json";
import { type Distribution, distributionOf } from "../../../src/estimating/risk/distribution.js";
import type { FoundRisk, LabourRisk, RiskModel, SourcingRisk } from "../../../src/estimating/risk/model.js";
import { runs } from "../../setup/runs.js";
import { bought, found, HUNDRED, job, line } from "./jobShapes.js";

const PERCENTILES = [0.1, 0.5, 0.8, 0.95];
const share = (min = 0, max = 1) => fc.double({ min, max, noNaN: true });
const aLine: fc.Arbitrary<LabourRisk> = fc
  .tuple(share(1, 200), share(0, 1), share(0, 2))
  .map(([low, up, over]) => line(low, low * (1 + up), low * (1 + up) * (1 + over)));
/** Thousandths that no percentile asked for is a product of: on the very edge of a step, a percentile is either side of it. */
const aChance = fc.integer({ min: 0, max: 99 }).map((percent) => percent / 100 + 0.003);
const aFound: fc.Arbitrary<FoundRisk> = fc
  .tuple(aChance, fc.integer({ min: 0, max: 60_000 }), fc.array(aLine, { maxLength: 2 }))
  .map(([probability, parts, labour]) => found(probability, parts, labour));
const aPart: fc.Arbitrary<SourcingRisk> = fc
  .tuple(fc.integer({ min: 100, max: 20_000 }), share(1, 3), share(1, 5))
  .map(([amount, more, most]) => bought([0.83, amount], [0.13, Math.round(amount * more)], [0.04, Math.round(amount * most)]));
const aJob: fc.Arbitrary<RiskModel> = fc
  .tuple(
    fc.constantFrom(0, 0.05, 0.15, 0.3, 0.6),
    fc.integer({ min: 0, max: 50_000 }),
    fc.array(aLine, { maxLength: 8 }),
    fc.array(aFound, { maxLength: 5 }),
    fc.array(aPart, { maxLength: 3 }),
  )
  .map(([cv, fixed, labour, ifFound, sourcing]) => job(cv, fixed, labour, ifFound, sourcing));

/**
 * `more` has at p no less than `less`, but for what the lattice can tell apart: one cell, a thirtieth of a standard deviation, or a thousandth of the jobs.
 * Not exactly: the lattice is as wide as the job, a step of one job is blurred over a cell of the next, and many small terms are taken by their cumulants.
 * Of 16,000 percentiles before and after an added item 43 were reported lower, none by more than a seventieth of a standard deviation.
 */
const notBelow = (more: Distribution, less: Distribution, p: number) =>
  expect(more.atMost(less.quantile(p) - more.sd / 30 - 1e-6)).toBeLessThanOrEqual(p + 0.001);

describe("the total of a job", () => {
  it("is one amount, to the last bit, when everything is certain", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10 ** 9 }), fc.array(share(0, 500), { maxLength: 20 }), (fixed, times) => {
        const total = distributionOf(
          job(
            0,
            fixed,
            times.map((minutes) => line(minutes, minutes, minutes)),
          ),
        );
        expect(total.quantile(0.1)).toBe(total.quantile(0.95));
        expect(total.quantile(0.5)).toBeCloseTo(total.expected, 6);
        expect([total.sd, total.atMost(total.quantile(0.5) - 1), total.atMost(total.quantile(0.5))]).toEqual([0, 0, 1]);
      }),
    );
  });

  it("has its percentiles in order, its mean as the sum of the means, and chances that match its percentiles", () => {
    fc.assert(
      fc.property(aJob, (model) => {
        const total = distributionOf(model);
        const found = PERCENTILES.map((p) => total.quantile(p));
        expect(found).toEqual([...found].sort((a, b) => a - b));
        for (const p of PERCENTILES) expect(total.atMost(total.quantile(p))).toBeGreaterThanOrEqual(p - 1e-5);
        const mean =
          model.fixed +
          model.labour.reduce((sum, { time }) => sum + (100 * (time.low + 4 * time.likely + time.high)) / 6, 0) +
          model.ifFound.reduce(
            (sum, each) =>
              sum +
              each.probability *
                (each.parts +
                  each.labour.reduce((all, { time }) => all + (100 * (time.low + 4 * time.likely + time.high)) / 6, 0)),
            0,
          ) +
          model.sourcing.reduce(
            (sum, part) => sum + part.outcomes.reduce((all, { probability, amount }) => all + probability * amount, 0),
            0,
          );
        expect(total.expected).toBeCloseTo(mean, 4);
      }),
      runs(150),
    );
  });

  it("holds E(T - K)+ to its slope: between two prices it falls by the chance of loss", () => {
    fc.assert(
      fc.property(aJob, share(0.3, 0.9), (model, p) => {
        const total = distributionOf(model);
        if (total.sd === 0) return;
        const [price, step] = [total.quantile(p), total.sd / 5];
        const fall = (total.shortfall(price) - total.shortfall(price + step)) / step;
        expect(fall).toBeLessThanOrEqual(1 - total.atMost(price - 0.05 * total.sd) + 0.05);
        expect(fall).toBeGreaterThanOrEqual(1 - total.atMost(price + step + 0.05 * total.sd) - 0.05);
      }),
      runs(100),
    );
  });

  it("moves by exactly the amount when something certain is added", () => {
    fc.assert(
      fc.property(aJob, fc.integer({ min: 1, max: 10 ** 6 }), (model, amount) => {
        const [before, after] = [distributionOf(model), distributionOf({ ...model, fixed: model.fixed + amount })];
        for (const p of PERCENTILES) expect(after.quantile(p) - before.quantile(p)).toBeCloseTo(amount, 4);
        expect(after.sd).toBe(before.sd);
      }),
      runs(100),
    );
  });

  it("has no percentile that an added item lowers", () => {
    fc.assert(
      fc.property(aJob, fc.oneof(aLine, aFound, aPart), (model, extra) => {
        const more =
          "time" in extra
            ? { ...model, labour: [...model.labour, extra] }
            : "outcomes" in extra
              ? { ...model, sourcing: [...model.sourcing, extra] }
              : { ...model, ifFound: [...model.ifFound, extra] };
        const [before, after] = [distributionOf(model), distributionOf(more)];
        for (const p of PERCENTILES) notBelow(after, before, p);
      }),
      runs(200),
    );
  });

  it("does not cost less at P80 when a line may take longer", () => {
    fc.assert(
      fc.property(aJob, aLine, share(1, 3), (model, extra, longer) => {
        const { time } = extra;
        const wider = { ...extra, time: { ...time, high: time.high * longer } };
        const [before, after] = [extra, wider].map((last) => distributionOf({ ...model, labour: [...model.labour, last] }));
        notBelow(after!, before!, 0.8);
      }),
      runs(150),
    );
  });

  it("does not cost less at P80 when units of the grade differ more, as long as no fault may turn up", () => {
    fc.assert(
      fc.property(
        fc.array(aLine, { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 0, max: 50_000 }),
        share(0, 0.8),
        share(0, 0.8),
        (labour, fixed, a, b) => {
          const [even, uneven] = [Math.min(a, b), Math.max(a, b)].map((cv) => distributionOf(job(cv, fixed, labour)));
          notBelow(uneven!, even!, 0.8);
        },
      ),
      runs(150),
    );
  });

  it("may cost less at P80 with more spread where P80 stands just above a step: that is so, not an error", () => {
    // 600 min sure; 300 min more in 21 of 100 jobs. Even units: P80 is 900 min. Uneven ones blur the step, and the 80th of 100 comes before it.
    const stepped = (cv: number) => distributionOf(job(cv, 0, [line(600, 600, 600)], [found(0.21, 0, [line(300, 300, 300)])]));
    expect(stepped(0).quantile(0.8)).toBe(90_000);
    expect(stepped(0.02).quantile(0.8)).toBeLessThan(89_000);
  });

  it("does not depend on the order of the items", () => {
    fc.assert(
      fc.property(aJob, (model) => {
        const turned = {
          ...model,
          labour: [...model.labour].reverse(),
          ifFound: [...model.ifFound].reverse(),
          sourcing: [...model.sourcing].reverse(),
        };
        const [one, other] = [distributionOf(model), distributionOf(turned)];
        for (const x of PERCENTILES.map((p) => one.quantile(p) + 0.01 * one.sd))
          expect(other.atMost(x)).toBeCloseTo(one.atMost(x), 6);
      }),
      runs(100),
    );
  });

  it("gives the same bytes for the same job", () => {
    const figures = (model: RiskModel) => JSON.stringify(PERCENTILES.map((p) => distributionOf(model).quantile(p)));
    expect(figures(HUNDRED(0.25))).toBe(figures(structuredClone(HUNDRED(0.25))));
  });

  it("hardly changes on a finer lattice with more strata", () => {
    fc.assert(
      fc.property(aJob, (model) => {
        const [usual, fine] = [distributionOf(model), distributionOf(model, { cells: 1500, strata: 40 })];
        for (const p of PERCENTILES) {
          const x = fine.quantile(p);
          const near = 0.05 * fine.sd;
          expect(usual.atMost(x + near)).toBeGreaterThanOrEqual(p - 0.01);
          expect(usual.atMost(x - near)).toBeLessThanOrEqual(fine.atMost(x) + 0.01);
        }
      }),
      runs(60),
    );
  });
});

describe(`ordering once for an uncertain demand (${published.orderOnce.source})`, () => {
  // 500 symmetrical lines make the demand normal to the eye: mean 1000, sd 200.
  const { mean, sd, under, over, order, wholeOrder, short, ratio, profit } = published.orderOnce;
  const each = (sd * Math.sqrt(7)) / Math.sqrt(500);
  it("orders up to the critical ratio, and falls short by the published number of pieces", () => {
    const demand = distributionOf(
      job(
        0,
        mean - 500 * each,
        Array.from({ length: 500 }, () => ({ ...line(0, each, 2 * each), ratePerHour: 60 })),
      ),
    );
    expect(under / (under + over)).toBe(ratio);
    expect(demand.expected).toBeCloseTo(mean, 6);
    expect(demand.sd).toBeCloseTo(sd, 6);
    expect(Math.abs(demand.quantile(ratio) / order - 1)).toBeLessThan(0.0002);
    expect(Math.ceil(demand.quantile(ratio))).toBe(wholeOrder);
    expect(Math.abs(demand.shortfall(order) / short - 1)).toBeLessThan(0.005);
    const sold = mean - demand.shortfall(order);
    expect(Math.abs((under * sold - over * (order - sold)) / profit - 1)).toBeLessThan(0.0005);
  });
});
