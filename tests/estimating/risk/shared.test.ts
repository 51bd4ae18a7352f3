/** Possible work that shares what it needs, against every set of it weighed by itself. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { contributionsTo } from "../../../src/estimating/risk/contributions.js";
import { distributionOf } from "../../../src/estimating/risk/distribution.js";
import { pertVariance } from "../../../src/estimating/risk/line.js";
import type { RiskModel } from "../../../src/estimating/risk/model.js";
import { totalMoments } from "../../../src/estimating/risk/moments.js";
import { termsOf } from "../../../src/estimating/risk/terms.js";
import { runs } from "../../setup/runs.js";
import { bought, found, job, line } from "./jobShapes.js";

interface Case {
  readonly chances: readonly number[];
  readonly costs: readonly number[];
  /** Of each thing shared: its cost, and who needs it. */
  readonly shared: readonly (readonly [cost: number, members: readonly boolean[]])[];
  readonly beyond?: readonly number[];
}

const modelOf = ({ chances, costs, shared, beyond }: Case): RiskModel => ({
  ...job(0, 1000, []),
  ifFound: chances.map((chance, at) => ({
    ...found(chance, costs[at]!, []),
    id: `f${at}`,
    needs: shared.flatMap(([, members], unit) => (members[at] ? [`u${unit}`] : [])),
  })),
  shared: shared.map(([amount], unit) => ({ id: `u${unit}`, labour: [], amount })),
  ...(beyond && { beyond }),
});

/** Every set of faults: its chance and what it costs. */
function bySets({ chances, costs, shared, beyond }: Case) {
  return Array.from({ length: 2 ** chances.length }, (_, set) => {
    const has = (at: number) => ((set >> at) & 1) === 1;
    const chance = chances.reduce((product, each, at) => product * (has(at) ? each : 1 - each), 1);
    const own = costs.reduce((sum, cost, at) => sum + (has(at) ? cost : 0), 1000 + (beyond?.[set] ?? 0));
    return {
      chance,
      cost: shared.reduce((sum, [cost, members]) => sum + (members.some((in_, at) => in_ && has(at)) ? cost : 0), own),
    };
  });
}

const aCase = (most: number): fc.Arbitrary<Case> =>
  fc.integer({ min: 2, max: most }).chain((count) =>
    fc.record({
      chances: fc.array(fc.constantFrom(0.1, 0.3, 0.5, 0.9), { minLength: count, maxLength: count }),
      costs: fc.array(
        fc.integer({ min: 0, max: 50 }).map((units) => 100 * units),
        { minLength: count, maxLength: count },
      ),
      shared: fc.array(
        fc.tuple(
          fc.integer({ min: 0, max: 40 }).map((units) => 100 * units),
          fc.array(fc.boolean(), { minLength: count, maxLength: count }),
        ),
        { maxLength: 4 },
      ),
    }),
  );

const sameAs = (given: Case) => {
  const sets = bySets(given);
  const total = distributionOf(modelOf(given));
  const mean = sets.reduce((sum, { chance, cost }) => sum + chance * cost, 0);
  expect(total.expected).toBeCloseTo(mean, 6);
  expect(total.sd ** 2).toBeCloseTo(
    sets.reduce((sum, { chance, cost }) => sum + chance * (cost - mean) ** 2, 0),
    3,
  );
  for (const { cost } of sets)
    expect(total.atMost(cost)).toBeCloseTo(
      sets.reduce((sum, each) => sum + (each.cost <= cost ? each.chance : 0), 0),
      9,
    );
};

describe("what several possible faults need", () => {
  it("is paid once, however they overlap", () => fc.assert(fc.property(aCase(6), sameAs), runs(150)));

  it("and what a set comes to beyond its parts is its own, below nothing too", () => {
    const sets = fc.array(fc.integer({ min: -900, max: 900 }), { minLength: 8, maxLength: 8 }).map(([, ...more]) => [0, ...more]);
    const three = aCase(6).filter(({ chances }) => chances.length === 3);
    fc.assert(
      fc.property(three, sets, (given, beyond) => sameAs({ ...given, beyond })),
      runs(60),
    );
  });

  const FIXED: readonly Case[] = [
    {
      chances: [0.3, 0.5, 0.9],
      costs: [100, 2500, 700],
      shared: [
        [3000, [true, true, false]],
        [900, [true, true, true]],
      ],
    },
    {
      chances: [0.2, 0.6, 0.4],
      costs: [0, 400, 1500],
      shared: [
        [2000, [true, true, false]],
        [1100, [false, true, true]],
      ],
    },
    {
      chances: [0.3, 0.5, 0.4],
      costs: [100, 600, 900],
      shared: [[3000, [false, true, true]]],
      beyond: [0, -900, 200, 0, -150, 80, 700, -60],
    },
  ];

  it("is paid once also where one of them never turns up, or always does", () => {
    for (const given of FIXED)
      for (const sure of [0, 1])
        for (const at of [0, 1, 2])
          sameAs({ ...given, chances: given.chances.map((chance, one) => (one === at ? sure : chance)) });
  });

  it("has the spread and the lean of every set of it", () => {
    for (const given of FIXED) {
      const { clusters } = termsOf(modelOf(given));
      const sets = bySets(given);
      const mean = sets.reduce((sum, { chance, cost }) => sum + chance * cost, 0);
      const about = (power: number) => sets.reduce((sum, { chance, cost }) => sum + chance * (cost - mean) ** power, 0);
      expect(clusters).toHaveLength(1);
      const { variance, third } = clusters[0]!.at(1);
      expect([variance / about(2), third / about(3)]).toEqual([expect.closeTo(1, 9), expect.closeTo(1, 9)]);
    }
  });

  it("beside work whose time varies goes as each set of it does by itself", () => {
    const work = [line(60, 90, 300)];
    const alone = distributionOf(job(0, 0, work));
    for (const given of FIXED) {
      const total = distributionOf({ ...modelOf(given), labour: work });
      const sets = bySets(given);
      for (const amount of [9000, 11_000, 13_000, 16_000, 20_000]) {
        const chance = sets.reduce((sum, each) => sum + each.chance * alone.atMost(amount - each.cost), 0);
        expect(Math.abs(total.atMost(amount) - chance)).toBeLessThan(0.01);
      }
    }
  });

  it("takes off a percentile what certainty about all of it would, each fault its share of the variance", () => {
    const faults = [
      found(0.4, 8000, [line(30, 60, 120)], [bought([0.7, 1000], [0.3, 9000])]),
      found(0.2, 3000, [line(10, 30, 200), line(5, 9, 70, false)]),
    ].map((each) => ({ ...each, needs: ["panel"] }));
    const model = { ...job(0, 1000, [], faults), shared: [{ id: "panel", labour: [], amount: 4000 }] };
    const [a, b] = faults.map(({ id }) => contributionsTo(model, 0.8).find((each) => each.id === id)!.takesOff);
    // p (1 - p) mean² + p variance, times at 1.00 a minute; 65 minutes, 55 and 18.5; the part costs 34.00 on average.
    const square = (minutes: { low: number; likely: number; high: number }) => pertVariance(minutes) * 10_000;
    const first = 0.24 * (6500 + 8000 + 3400) ** 2 + 0.4 * (square({ low: 30, likely: 60, high: 120 }) + 0.21 * 8000 ** 2);
    const steady = (5 + 36 + 70) / 6;
    const other = square({ low: 10, likely: 30, high: 200 }) + square({ low: 5, likely: 9, high: 70 });
    const second = 0.16 * (5500 + 100 * steady + 3000) ** 2 + 0.2 * other;
    expect(a! / b!).toBeCloseTo(first / second, 6);
  });

  it("of eight faults behind one panel opens it as often as any turns up", () => {
    const eight = {
      chances: Array(8).fill(0.3),
      costs: Array(8).fill(500),
      shared: [[6000, Array(8).fill(true)]],
    } as unknown as Case;
    const total = distributionOf(modelOf(eight));
    expect(total.expected).toBeCloseTo(1000 + 8 * 0.3 * 500 + (1 - 0.7 ** 8) * 6000, 6);
  });

  it("errs towards too much, and says so, where too many overlap", () => {
    const count = 12;
    const ring: Case = {
      chances: Array(count).fill(0.3) as number[],
      costs: Array(count).fill(100) as number[],
      shared: Array.from(
        { length: count },
        (_, unit) => [1000, Array.from({ length: count }, (__, at) => (at - unit + count) % count < 5)] as const,
      ),
    };
    const [cluster] = termsOf(modelOf(ring)).clusters;
    expect(cluster!.exact).toBe(false);
    const sets = bySets(ring);
    const mean = sets.reduce((sum, { chance, cost }) => sum + chance * cost, 0);
    const each = mean - ring.shared.reduce((sum, [cost, members]) => sum + cost * (1 - 0.7 ** members.filter(Boolean).length), 0);
    const { expected } = distributionOf(modelOf(ring));
    expect(expected).toBeGreaterThanOrEqual(mean - 1e-6);
    expect(expected).toBeLessThan(
      each + ring.shared.reduce((sum, [cost, members]) => sum + cost * 0.3 * members.filter(Boolean).length, 0),
    );
  });

  it("keeps mean and variance on a lattice, with times that vary and a unit that may be worse", () => {
    const model: RiskModel = {
      ...job(0.4, 2000, [line(20, 30, 80)]),
      ifFound: [0.2, 0.4, 0.6].map((chance, at) => ({
        ...found(chance, 300 * at, [line(10, 20, 60)]),
        id: `f${at}`,
        needs: at < 2 ? ["lid", "panel"] : ["lid"],
      })),
      shared: [
        { id: "lid", labour: [line(30, 40, 90)], amount: 0 },
        { id: "panel", labour: [line(10, 20, 50)], amount: 200 },
      ],
    };
    const total = distributionOf(model);
    const { mean, variance } = totalMoments(termsOf(model));
    const steps = Array.from({ length: 4000 }, (_, at) => total.quantile((at + 0.5) / 4000));
    const average = steps.reduce((sum, each) => sum + each, 0) / 4000;
    expect(average / mean).toBeCloseTo(1, 3);
    expect(Math.sqrt(steps.reduce((sum, each) => sum + (each - average) ** 2, 0) / 4000 / variance)).toBeCloseTo(1, 2);
  });
});

describe("jobs of units that differ by 65 to 90 %", () => {
  /** The most that a chance is off, in points, from the same on a lattice ten times as fine. */
  const mostOff = (model: RiskModel): number => {
    const fine = distributionOf({ ...model, shared: [] }, { cells: 2000, strata: 150 });
    const total = distributionOf(model);
    const chances = Array.from({ length: 199 }, (_, at) => (at + 1) / 200);
    return 100 * Math.max(...chances.map((chance) => Math.abs(total.atMost(fine.quantile(chance)) - chance)));
  };
  const oneLine = (spread: number) => job(spread, 2000, [line(20, 30, 90)]);

  it.each([0.65, 0.8, 0.9])("have no dent in their chances at %s, where a finer lattice takes over", (spread) => {
    expect(mostOff({ ...oneLine(spread), shared: [] })).toBeLessThan(0.25);
  });

  it("had one of more than two points, which books that share no risk keep", () =>
    expect(mostOff(oneLine(0.9))).toBeGreaterThan(2));
});
