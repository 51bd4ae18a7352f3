/** Sources beside the figures in fixtures/published/closeout-accuracy.json. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/closeout-accuracy.json";
import { accuracyOf, coverage } from "../../../src/estimating/closeout/accuracy/accuracy.js";
import { accuracyBoard, type JobOutcome } from "../../../src/estimating/closeout/accuracy/board.js";
import { costsOf, dearest } from "../../../src/estimating/closeout/accuracy/costliest.js";
import { whatIf } from "../../../src/estimating/closeout/accuracy/whatIf.js";
import { type Observation, observationsOf } from "../../../src/estimating/closeout/learning/observation.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { sum } from "../cast/organ.js";
import { about, PLAIN, TAXED } from "../cast/plainBook.js";
import { INPUT, minutes, sheetOf } from "./done.js";

describe("accuracy", () => {
  const { actual, p50, p80, ...wanted } = published.forecasts;
  const forecasts = actual.map((each, n) => ({ actual: each, p50: p50[n]!, p80: p80[n]! }));

  it("has the bias, errors, quantile losses and coverage worked by hand", () => {
    const is = accuracyOf(forecasts)!;
    expect(is).toMatchObject({ jobs: 5, bias: wanted.bias, meanAbsoluteError: wanted.mae, pinball50: wanted.pinball50 });
    expect(is.pinball80).toBeCloseTo(wanted.pinball80, 12);
    expect(is.meanAbsolutePercent).toBeCloseTo(wanted.mape, 4);
    expect(is.medianAbsolutePercent).toBeCloseTo(wanted.mdape, 4);
    expect(is.coverage80).toMatchObject({ within: wanted.within80, of: 5, share: 0.8 });
  });
  it("says how little five jobs say of a P80, and how much two hundred", () => {
    const { low, high } = accuracyOf(forecasts)!.coverage80!;
    expect(low).toBeLessThan(0.3);
    expect(high).toBeGreaterThan(0.99);
    expect(coverage(160, 200)).toMatchObject({ share: 0.8 });
    expect(coverage(160, 200).high - coverage(160, 200).low).toBeLessThan(0.12);
    expect(coverage(140, 200).high).toBeLessThan(0.8);
  });
  it("has no coverage without P80s, no percentages of nothing, and nothing at all without jobs", () => {
    expect(accuracyOf([{ actual: 0, p50: 10 }])).toEqual({ jobs: 1, bias: -10, meanAbsoluteError: 10, pinball50: 5 });
    expect(accuracyOf([])).toBeUndefined();
  });
  it("is best at the middle for the half, and at the fourth fifth for P80: no other constant loses less", () => {
    const actuals = fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(actuals, fc.integer({ min: 0, max: 1000 }), (values, guess) => {
        const sorted = values.toSorted((a, b) => a - b);
        const losses = (p50: number, p80: number) => accuracyOf(values.map((actual) => ({ actual, p50, p80 })))!;
        const best = losses(sorted[2]!, sorted[3]!);
        expect(losses(guess, guess).pinball50).toBeGreaterThanOrEqual(best.pinball50 - 1e-9);
        expect(losses(guess, guess).pinball80).toBeGreaterThanOrEqual(best.pinball80! - 1e-9);
      }),
    );
  });
});

describe("the board", () => {
  const outcome = (job: string, model: string, closedOn: string, revenue: number, cost: number): JobOutcome => ({
    ...{ job, model, closedOn, forecast: { p50: 100, p80: 130, actual: 110 } },
    earned: { revenue, cost },
  });
  const board = accuracyBoard([
    outcome("a", "Cadence 3", "2026-10-31", 10_000, 6000),
    outcome("b", "Solivane 49", "2026-11-01", 20_000, 21_000),
    outcome("c", "Cadence 3", "2026-11-30", 5000, 4000),
    { job: "d", model: "Cadence 3", closedOn: "2026-11-12", forecast: { p50: 100, actual: 90 } },
    // Declined: it forecast nothing, and cost the shop its time.
    { job: "e", model: "Pavane 2", closedOn: "2026-12-03", earned: { revenue: 3500, cost: 4000 } },
  ]);

  it("has margins by month and by model, of the jobs whose costs are known", () => {
    expect(board.byMonth).toEqual([
      { month: "2026-10", earned: { jobs: 1, revenue: 10_000, cost: 6000, margin: 4000, percent: 40 } },
      { month: "2026-11", earned: { jobs: 2, revenue: 25_000, cost: 25_000, margin: 0, percent: 0 } },
      { month: "2026-12", earned: { jobs: 1, revenue: 3500, cost: 4000, margin: -500, percent: -14.2857 } },
    ]);
    expect(board.byModel.map(({ model, accuracy, earned }) => [model, accuracy?.jobs, earned.margin])).toEqual([
      ["Cadence 3", 3, 5000],
      ["Solivane 49", 1, -1000],
      ["Pavane 2", undefined, -500],
    ]);
    expect(board.earned).toMatchObject({ jobs: 4, margin: 3500 });
    expect(board.overall).toMatchObject({ jobs: 4, coverage80: { within: 3, of: 3 } });
  });
  it("is empty without jobs", () => {
    expect(accuracyBoard([])).toEqual({ byModel: [], byMonth: [], earned: { jobs: 0, revenue: 0, cost: 0, margin: 0 } });
  });
});

const closed = (job: string, taken: readonly [string, number][]) =>
  observationsOf({ job, input: INPUT, log: { time: taken.map(([where, spent]) => minutes(where, spent)), parts: [] } }, PLAIN)!;

describe("the standards that cost most", () => {
  it("are those that took most money beyond the book, each by its share of a piece of work", () => {
    // Cleaning 19, 11 over in all; replacing 20 of which leads are 4, 30 over; the voice 15 at double rate, 5 over; the lid is quicker.
    const dear = dearest(
      costsOf(
        [
          ...closed("one", [
            ["clean", 25],
            ["caps", 50],
            ["voice", 20],
            ["open lid", 6],
          ]),
          ...closed("two", [["clean", 24]]),
        ],
        PLAIN,
      ),
    );
    expect(
      dear.map(({ standard, observations, jobs, allowed, taken, cost }) => [
        "id" in standard ? standard.id : standard.is,
        observations,
        jobs,
        allowed,
        taken,
        cost,
      ]),
    ).toEqual([
      ["replace", 1, 1, 16, 40, 2400],
      ["clean", 2, 2, 38, 49, 1100],
      ["adjust", 1, 1, 15, 20, 1000],
      ["leads", 1, 1, 4, 10, 600],
    ]);
  });
  it("are five at most, and their overruns sum to that of the work", () => {
    const observations = closed("one", [
      ["clean", 30],
      ["caps", 50],
      ["voice", 90],
      ["open lid", 60],
      ["open top", 9],
    ]);
    const all = dearest(costsOf(observations, PLAIN), 99);
    expect(dearest(costsOf(observations, PLAIN))).toEqual(all.slice(0, 5));
    const over = sum(observations.map((each) => ((each.minutes - each.standard.likely) * each.ratePerHour) / 60));
    expect(sum(all.map(({ cost }) => cost))).toBeCloseTo(over, 0);
  });
});

describe("what a piece of work is allowed", () => {
  const time = { low: 20, likely: 36, high: 82 };
  const taken: Observation = {
    ...{ job: "one", model: "Any", grade: "fair", line: "labour:a", minutes: 55, ratePerHour: 6000 },
    ...{ standard: time, rests: [{ standard: { is: "leads" }, time }] },
  };
  it("is the mean of its time where the book charges expected minutes, as its line and its close-out say", () => {
    const expected = { ...PLAIN, billing: { ...PLAIN.billing, minutes: "expected" } } as const;
    // (20 + 4 x 36 + 82) / 6 = 41 (Malcolm and others 1959).
    expect(costsOf([taken], expected)).toMatchObject([{ allowed: 41, taken: 55, cost: 1400 }]);
  });
  it("is the likely time in a book that charges it", () =>
    expect(costsOf([taken], PLAIN)).toMatchObject([{ allowed: 36, taken: 55, cost: 1900 }]));
});

describe("what if past jobs were priced by another book", () => {
  const taxed: EstimateInput = { ...INPUT, rateBook: TAXED };
  const slower = {
    ...TAXED,
    version: 2,
    operations: TAXED.operations.map((each) => (each.id === "clean" ? { ...each, unit: about(4) } : each)),
  };
  const without = { ...taxed, items: taxed.items.filter(({ id }) => id !== "clean") };
  const result = whatIf(
    [
      { job: "one", input: taxed, actual: 9840 },
      { job: "two", input: without, actual: 7000 },
      { job: "three", input: { ...taxed, currency: "GBP" } },
    ],
    slower,
  );

  it("shows old and new beside the actual, job by job and in all", () => {
    expect(result.jobs).toEqual([
      { job: "one", before: { price: 9040, total: 10_848 }, after: { price: 9540, total: 11_448 }, actual: 9840 },
      { job: "two", before: { price: 7140, total: 8568 }, after: { price: 7140, total: 8568 }, actual: 7000 },
    ]);
    expect([result.before, result.after]).toEqual([
      { price: 16_180, total: 19_416 },
      { price: 16_680, total: 20_016 },
    ]);
    expect(result.against).toEqual({ jobs: 2, actual: 16_840, before: 16_180, after: 16_680, offBefore: 940, offAfter: 440 });
  });
  it("names the jobs that it cannot price, and why", () => {
    expect(result.leftOut.map(({ job, problems }) => [job, problems[0]!.name])).toEqual([["three", "currency differs"]]);
  });
  it("changes no sheet, and nothing by the same book", () => {
    const before = JSON.stringify(sheetOf(taxed));
    const same = whatIf([{ job: "one", input: taxed }], TAXED);
    expect(same.before).toEqual(same.after);
    expect(same.against).toBeUndefined();
    expect(JSON.stringify(sheetOf(taxed))).toBe(before);
  });
});
