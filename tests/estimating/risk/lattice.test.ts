/** Sums on a lattice, held against every pair of amounts; and what is put on it as a shape against its moments. */
import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import { sortTerms } from "../../../src/estimating/risk/crowd.js";
import { distributionOf } from "../../../src/estimating/risk/distribution.js";
import { betaBinomialMasses } from "../../../src/estimating/risk/goodCounts.js";
import {
  convolve,
  convolveIfFound,
  hatMasses,
  type Masses,
  mixed,
  scaled,
  splitOnto,
  trimmed,
} from "../../../src/estimating/risk/lattice.js";
import { smallManyMasses } from "../../../src/estimating/risk/smallMany.js";
import { termsOf } from "../../../src/estimating/risk/terms.js";
import { found, job, line } from "./jobShapes.js";

const masses = (from: number, ...mass: number[]): Masses => ({ from, mass: Float64Array.from(mass) });
/** By amount, from -20 to 39; what lies outside fails. */
function byAmount(...all: (readonly [Masses, number])[]): number[] {
  const out = Array.from({ length: 60 }, () => 0);
  for (const [{ from, mass }, weight] of all)
    mass.forEach((one, at) => {
      out[from + at + 20]! += weight * one;
    });
  return out;
}
const same = (is: Masses, wanted: readonly number[], top = 39) => {
  const off = byAmount([is, 1]).map((one, at) => one - (at - 20 > top ? 0 : wanted[at]!));
  expect(off.filter((each) => !(Math.abs(each) < 1e-12))).toEqual([]);
};
const sums = (a: Masses, b: Masses) =>
  byAmount(...[...b.mass].map((weight, at) => [{ from: a.from + b.from + at, mass: a.mass }, weight] as const));

const NOTHING = masses(5);
const SOME = [
  masses(0, 1),
  masses(3, 0.5, 0, 0.25, 0.25),
  masses(-2, 0.1, 0.2, 0.7),
  masses(1, 0.4, 0.6),
  masses(-6, 1),
  masses(2, 0.2, 0.2, 0.2, 0.2, 0.2),
];
const pairs = SOME.flatMap((a) => SOME.map((b) => [a, b] as const));

describe("amounts on a lattice", () => {
  it("add up as every pair of them does, up to the top", () => {
    for (const [a, b] of pairs) for (const top of [39, 6, 3]) same(convolve(a, b, top), sums(a, b), top);
    same(convolve(SOME[1]!, NOTHING, 39), byAmount());
  });

  it("come to the sum when something is found and stay as they are when not", () => {
    for (const [a, b] of pairs)
      for (const [p, top] of [
        [0.3, 39],
        [1, 39],
        [0, 39],
        [0.6, 4],
      ] as const) {
        const both = sums(a, b).map((one) => p * one);
        const alone = byAmount([a, 1 - p]);
        same(
          convolveIfFound(a, b, p, top),
          both.map((one, at) => one + alone[at]!),
          top,
        );
      }
  });

  it("mix by their weights, also where one has none or is nothing", () => {
    for (const [a, b] of pairs)
      for (const [x, y] of [
        [0.3, 0.7],
        [1, -0.5],
        [2, 0],
      ] as const)
        same(mixed(a, x, b, y), byAmount([a, x], [b, y]));
    for (const some of SOME) {
      same(mixed(some, 0.4, NOTHING, 0.6), byAmount([some, 0.4]));
      same(mixed(NOTHING, 0.6, some, 0.4), byAmount([some, 0.4]));
    }
  });

  it("lie on their two neighbours by how near they are, and beyond the top not at all", () => {
    const put = (amount: number, top = 39) => splitOnto([{ probability: 0.8, amount }], 4, top);
    same(put(10), byAmount([masses(2, 0.4, 0.4), 1]));
    same(put(-9), byAmount([masses(-3, 0.2, 0.6), 1]));
    same(put(12), byAmount([masses(3, 0.8), 1]));
    same(put(12, 3), byAmount([masses(3, 0.8), 1]));
    expect(put(12.1, 3).mass).toHaveLength(0);
    const two = splitOnto(
      [
        { probability: 0.5, amount: 2 },
        { probability: 0.25, amount: 21 },
        { probability: 0.25, amount: 400 },
      ],
      2,
      39,
    );
    same(two, byAmount([masses(1, 0.5), 1], [masses(10, 0.125, 0.125), 1]));
  });

  it("keep their mass and their mean when all of them are a share more or less", () => {
    for (const some of SOME)
      for (const factor of [0.5, 1, 1.3, 2.75]) {
        const to = scaled(some, factor, 39);
        const wanted = [...some.mass].flatMap((probability, at) => [{ probability, amount: (some.from + at) * factor }]);
        same(to, byAmount([splitOnto(wanted, 1, 39), 1]));
      }
    expect(scaled(NOTHING, 2, 39).mass).toHaveLength(0);
    expect(scaled(masses(30, 1), 2, 39).mass).toHaveLength(0);
  });

  it("let go of dust at either end and of none between", () => {
    expect(trimmed(masses(4, 1e-12, -1e-12, 0.5, 1e-13, 0.5, 1e-12))).toEqual(masses(6, 0.5, 1e-13, 0.5));
    expect(trimmed(masses(4, 0.5, 0.5))).toEqual(masses(4, 0.5, 0.5));
    expect(trimmed(masses(4, 0, 0)).mass).toHaveLength(1);
  });

  it("of a shape keep its mean, and end where the lattice does", () => {
    // Anything between 2 and 5, all alike.
    const below = (x: number) => (x <= 2 ? 0 : x >= 5 ? x - 3.5 : (x - 2) ** 2 / 6);
    same(hatMasses(below, 2, 5, 1, 39), byAmount([masses(2, 1 / 6, 1 / 3, 1 / 3, 1 / 6), 1]));
    same(hatMasses(below, 2, 5, 1, 3), byAmount([masses(2, 1 / 6, 1 / 3), 1]));
  });
});

describe("the sum of many small terms", () => {
  it.each([
    [0, 0.4],
    [0.3, 3],
    [-0.3, 3],
    [0.3, 1],
    [1.2, 3],
    [-1.2, 3],
    [0, 3],
    [-0.6, 0.9],
  ])("leans by %d as it is told, at %d cells a standard deviation", (skew, sd) => {
    const is = smallManyMasses({ mean: 50, variance: sd * sd, third: skew * sd ** 3 }, 1, 100);
    const all = [...is.mass].map((mass, at) => ({ mass, amount: is.from + at - 50 }));
    const moment = (power: number) => all.reduce((sum, { mass, amount }) => sum + mass * amount ** power, 0);
    expect(moment(0)).toBeCloseTo(1, 3);
    expect(moment(1)).toBeCloseTo(0, 2);
    // A split on the lattice adds a sixth of a cell squared; a density at the points of one adds none.
    const added = moment(2) - sd * sd;
    expect(added).toBeGreaterThan(-0.02 * sd * sd);
    expect(added).toBeLessThan(1 / 6 + 0.01 * sd * sd);
    expect(Math.abs(moment(3) / sd ** 3 - skew)).toBeLessThan(0.06);
  });

  it("is one amount where none of them varies", () => {
    expect(smallManyMasses({ mean: 7, variance: 0, third: 0 }, 1, 100)).toEqual(masses(7, 1));
  });

  it("takes in lines of which no one spreads a third as far as the others together: ten alike, not nine", () => {
    const alike = (count: number) =>
      sortTerms(
        termsOf(
          job(
            0,
            0,
            Array.from({ length: count }, () => line(10, 20, 30)),
          ),
        ),
        0,
      );
    expect([alike(10).crowd.lines.length, alike(10).loners.lines.length]).toEqual([10, 0]);
    expect([alike(9).crowd.lines.length, alike(9).loners.lines.length]).toEqual([0, 9]);
  });
});

describe("what may be found", () => {
  it("keeps the whole shape of its time where nothing else spreads the total", () => {
    const total = distributionOf(job(0, 0, [], [found(0.5, 0, [line(60, 90, 300)])]));
    for (const minutes of [80, 110, 150, 220])
      expect(total.atMost(minutes * 100)).toBeCloseTo(0.5 + 0.5 * jStat.beta.cdf((minutes - 60) / 240, 1.5, 4.5), 2);
  });

  it("may make a job cheaper: half of such jobs go without what it saves, half with it", () => {
    const [work, more] = [line(5, 6, 9), line(10, 20, 30)];
    const total = distributionOf(job(0, 10_000, [work], [found(0.5, -3000, [more])]));
    const [without, within] = [distributionOf(job(0, 10_000, [work])), distributionOf(job(0, 7000, [work, more]))];
    expect(total.expected).toBeCloseTo((without.expected + within.expected) / 2, 6);
    for (const amount of [8500, 9000, 9500, 9900, 10_500, 10_800])
      expect(Math.abs(total.atMost(amount) - (without.atMost(amount) + within.atMost(amount)) / 2)).toBeLessThan(0.02);
  });
});

it("keeps its figures for thousands of pieces, whether few or most of them are good", () => {
  for (const [good, bad] of [
    [3, 400],
    [400, 3],
    [0.5, 0.5],
    [600, 600],
  ] as const) {
    const each = betaBinomialMasses(4000, good, bad);
    expect(each.reduce((sum, mass) => sum + mass, 0)).toBeCloseTo(1, 9);
    expect(each.reduce((sum, mass, at) => sum + at * mass, 0)).toBeCloseTo((4000 * good) / (good + bad), 5);
  }
});
