/** Which terms are summed up by their cumulants, what they come to at a condition factor, and how a total slides with it: by hand. */
import { describe, expect, it } from "vitest";
import { type Cost, clusterOf, type Lump, type Shared } from "../../../src/estimating/risk/cluster.js";
import { crowdMoments, dearestStep, lumpStep, sortTerms } from "../../../src/estimating/risk/crowd.js";
import { type Moments, momentsOf } from "../../../src/estimating/risk/cumulants.js";
import type { Line } from "../../../src/estimating/risk/line.js";
import { labourBehind, layDown, type Slide } from "../../../src/estimating/risk/spread.js";
import { termsOf } from "../../../src/estimating/risk/terms.js";
import { bought, found, job, line } from "./jobShapes.js";

const moments = (mean: number, variance = 0, third = 0): Moments => ({ mean, variance, third });
const aLine = (mean: number, variance: number, third = 0): Line => ({
  ...{ id: "line", low: 0, likely: mean, high: 2 * mean },
  ...moments(mean, variance, third),
});
const cost = (labour: Moments, other: Moments): Cost => ({
  ...{ labour, lines: [], other, otherChances: [{ probability: 1, amount: other.mean }], otherLeast: other.mean },
});
const lump = (probability: number, labour: Moments, other: Moments): Lump => ({
  id: "lump",
  probability,
  ...cost(labour, other),
});
const NONE = { lines: [], steady: [], lumps: [], draws: [], clusters: [] };
const draw = (...pairs: readonly (readonly [probability: number, amount: number])[]) => {
  const outcomes = pairs.map(([probability, amount]) => ({ probability, amount }));
  return { id: "draw", outcomes, ...momentsOf(outcomes) };
};

describe("what many small terms come to at a condition factor", () => {
  const group = {
    ...NONE,
    lines: [aLine(10, 4, 1)],
    steady: [aLine(5, 2, -1)],
    draws: [draw([0.5, 2], [0.5, 4])],
    lumps: [lump(0.5, moments(2), moments(6))],
  };

  it("is labour by the factor, its square and its cube, and the rest as it is", () => {
    // Labour 10 and 7 that are sure; 5 and 3 beside it; half of 2 by the factor and 6.
    const at = crowdMoments(7, group);
    for (const [c, mean, variance, third] of [
      [0, 5 + 3 + 3, 2 + 1 + 9, -1],
      [0.5, 8.5 + 8 + 3.5, 1 + 3 + 12.25, 0.125 - 1],
      [1, 17 + 8 + 4, 4 + 3 + 16, 1 - 1],
      [2, 34 + 8 + 5, 16 + 3 + 25, 8 - 1],
      [4, 68 + 8 + 7, 64 + 3 + 49, 64 - 1],
    ] as const) {
      const is = at(c);
      expect(is.mean).toBeCloseTo(mean, 9);
      expect(is.variance).toBeCloseTo(variance, 9);
      expect(is.third).toBeCloseTo(third, 9);
    }
  });

  it("has what several faults share once in three of four jobs", () => {
    const [a, b] = [lump(0.5, moments(0), moments(4)), lump(0.5, moments(0), moments(4))];
    const place: Shared = { ...cost(moments(8), moments(0)), members: new Set([a, b]) };
    const cluster = clusterOf({ id: "c", lumps: [a, b], shared: [place], base: 0 });
    // 2 and 2 on average, and 8 by the factor in 3 of 4.
    expect(crowdMoments(0, { ...NONE, clusters: [cluster] })(1).mean).toBeCloseTo(4 + 6, 9);
    expect(crowdMoments(0, { ...NONE, clusters: [cluster] })(2).mean).toBeCloseTo(4 + 12, 9);
    // Of 0, 12, 12 and 16, a quarter each: 144 / 4 + 144 / 4 + 256 / 4 - 100.
    expect(crowdMoments(0, { ...NONE, clusters: [cluster] })(1).variance).toBeCloseTo(36, 9);
  });
});

describe("a step", () => {
  const [a, b] = [lump(0.5, moments(10, 9), moments(5, 16)), lump(0.1, moments(1), moments(20))];
  const shared = (mean: number, ...members: Lump[]): Shared => ({
    ...cost(moments(mean), moments(3)),
    members: new Set(members),
  });

  it("of what is found is its cost and twice its spread", () => {
    expect(lumpStep(a)).toBe(10 + 5 + 2 * 5);
    expect(lumpStep(b)).toBe(21);
  });

  it("of several that share is the dearest of them with all that it needs", () => {
    const of = (...units: Shared[]) => dearestStep(clusterOf({ id: "c", lumps: [a, b], shared: units, base: 0 }));
    expect(of()).toBe(25);
    expect(of(shared(4, a, b))).toBe(25 + 7);
    expect(of(shared(4, b))).toBe(21 + 7);
    expect(of(shared(4, a, b), shared(2, b))).toBe(21 + 7 + 5);
  });
});

describe("beside a spread of 200 by the condition", () => {
  const sorted = (...given: Partial<ReturnType<typeof job>>[]) => {
    const model = Object.assign(job(0.2, 0, [line(10, 10, 10)]), ...given);
    const { crowd, loners, smooth } = sortTerms(termsOf(model), 1000);
    const counts = (group: typeof crowd) => [group.lumps.length, group.draws.length, group.clusters.length];
    return [Math.round(smooth), counts(crowd), counts(loners)];
  };

  it("a fault or a part is small up to just that much", () => {
    expect(sorted({ ifFound: [found(0.5, 200, []), found(0.5, 201, [])] })).toEqual([200, [1, 0, 0], [1, 0, 0]]);
    const parts = { sourcing: [bought([0.5, 1000], [0.5, 1200]), bought([0.5, 1000], [0.5, 1201])] };
    expect(sorted(parts)).toEqual([200, [0, 1, 0], [0, 1, 0]]);
    // What never happens is no outcome, at either end.
    expect(sorted({ sourcing: [bought([0.5, 1000], [0.5, 1200], [0, 9000], [0, 0])] })).toEqual([200, [0, 1, 0], [0, 0, 0]]);
  });

  it("faults that share are small while all of them together are, with what sets come to beyond", () => {
    const pair = (amount: number, beyond?: readonly number[]) => ({
      ifFound: [1, 2].map((at) => ({ ...found(0.5, 50, []), id: `f${at}`, needs: ["place"] })),
      shared: [{ id: "place", labour: [], amount }],
      ...(beyond && { beyond }),
    });
    expect(sorted(pair(100))).toEqual([200, [0, 0, 1], [0, 0, 0]]);
    expect(sorted(pair(101))).toEqual([200, [0, 0, 0], [0, 0, 1]]);
    expect(sorted(pair(40, [0, 30, -30, 0]))).toEqual([200, [0, 0, 1], [0, 0, 0]]);
    expect(sorted(pair(41, [0, 30, -30, 0]))).toEqual([200, [0, 0, 0], [0, 0, 1]]);
  });
});

describe("a total that slides with the condition", () => {
  const slide = (at: number, labour: Slide["labour"], given: Partial<Slide["stratum"]> = {}): Slide => ({
    stratum: { mass: 1, mean: 1, from: 0.8, to: 1.2, ...given },
    masses: { from: at, mass: Float64Array.of(1) },
    labour,
  });
  const twenty = { at0: 20, perCell: 0 };
  const read = (slides: readonly Slide[], top = 100) => {
    const { from, mass } = layDown(slides, top);
    const at = (cell: number) => mass[cell - from] ?? 0;
    const all = [...mass].map((each, cell) => [each, from + cell] as const);
    const sum = all.reduce((total, [each]) => total + each, 0);
    return { from, at, sum, mean: all.reduce((total, [each, cell]) => total + each * cell, 0) / sum };
  };

  it("lies evenly between its two ends, an end by half", () => {
    // 20 cells of labour by 0.8 to 1.2: from 46 to 54.
    const { from, at, sum, mean } = read([slide(50, twenty)]);
    expect([sum, mean].map((each) => Math.round(each * 1e9) / 1e9)).toEqual([1, 50]);
    expect(from).toBeLessThanOrEqual(46);
    expect([45, 46, 47, 50, 53, 54, 55].map(at)).toEqual(
      [0, 1 / 16, 1 / 8, 1 / 8, 1 / 8, 1 / 16, 0].map((each) => expect.closeTo(each, 9)),
    );
  });

  it("leans so that the mean of the stratum is kept", () => {
    // From 47 to 55 with its mean at 50, 3/8 of the way: 1.75 of the even height at the one end, 0.25 at the other.
    const { at, sum, mean } = read([slide(50, twenty, { mean: 0.95 })]);
    expect(sum).toBeCloseTo(1, 9);
    // A slope read off at whole cells (Euler-Maclaurin): a twelfth of twice the fall of 1.5 / 8 from end to end.
    expect(mean).toBeCloseTo(50 - (2 * 1.5) / 8 / 12, 9);
    for (const cell of [48, 50, 51, 54]) expect(at(cell)).toBeCloseTo((1.75 - (1.5 * (cell - 47)) / 8) / 8, 9);
    expect(at(46) + at(56)).toBeCloseTo(0, 9);
  });

  it("keeps mass and mean where an end lies between two cells", () => {
    for (const hours of [7, 9.3, 13.7, 20.2, 21.6])
      for (const mean of [0.97, 1, 1.04]) {
        const is = read([slide(50, { at0: hours, perCell: 0 }, { mean })]);
        expect(is.sum).toBeCloseTo(1, 9);
        expect(Math.abs(is.mean - 50)).toBeLessThan(0.1);
      }
  });

  it("stays where it is without labour, with less than half a cell of it, or in units all alike", () => {
    for (const still of [
      slide(50, { at0: 0, perCell: 0 }),
      slide(50, { at0: -30, perCell: 0.5 }),
      slide(50, { at0: 1.2, perCell: 0 }),
      slide(50, twenty, { from: 1, to: 1 }),
    ])
      expect([read([still]).at(50), read([still]).sum]).toEqual([1, 1]);
    expect(read([slide(50, { at0: 1.26, perCell: 0 })]).at(50)).toBeLessThan(1);
  });

  it("slides each amount by the labour in it, each stratum by its share, and drops what is above the top", () => {
    const both = {
      ...slide(0, { at0: 0, perCell: 0.4 }),
      masses: { from: 10, mass: Float64Array.of(0.5, ...Array(39).fill(0), 0.5) },
    };
    // 4 cells of labour in 10, 20 in 50: from 9.2 to 10.8, and from 46 to 54.
    const { at, sum } = read([both]);
    expect([8, 47, 53].map(at)).toEqual([0, 1 / 16, 1 / 16].map((each) => expect.closeTo(each, 9)));
    expect([9, 10, 11].reduce((total, cell) => total + at(cell), 0)).toBeCloseTo(0.5, 9);
    expect(sum).toBeCloseTo(1, 9);
    const shares = read([slide(20, { at0: 0, perCell: 0 }, { mass: 0.25 }), slide(50, twenty, { mass: 0.75 })]);
    expect([shares.at(20), shares.at(50)]).toEqual([0.25, expect.closeTo(0.75 / 8, 9)]);
    const cut = read([slide(50, twenty)], 50);
    expect([cut.sum, cut.at(50)]).toEqual([expect.closeTo(1 / 16 + 4 / 8, 9), expect.closeTo(1 / 8, 9)]);
    expect(read([slide(60, { at0: 0, perCell: 0 })], 50).sum).toBe(0);
  });
});

describe("the labour to expect in a total", () => {
  const terms = { ...termsOf(job(0.2, 0, [])), sure: 10, lines: [aLine(100, 25)], steady: [aLine(40, 75)] };

  it("is the straight line through the means, by what varies in both", () => {
    // 25 of 100 that vary are labour: 110 less a quarter of 150, in cells of 2.
    const at = labourBehind(terms, 2);
    expect(at(1)).toEqual({ at0: (110 - 37.5) / 2, perCell: 0.25 });
    // Twice the labour varies four times as much: 50 of 175.
    expect(at(2).perCell).toBeCloseTo(50 / 175, 12);
    expect(at(2).at0).toBeCloseTo((110 - (50 / 175) * 260) / 2, 9);
  });

  it("counts what may be found, half of 10 and 20 that come together, and draws of parts", () => {
    const fault = lump(0.5, moments(10), moments(20));
    // Labour varies by 25 more, the rest by 100 more, and 50 of it together.
    const { at0, perCell } = labourBehind({ ...terms, lumps: [fault] }, 2)(1);
    expect(perCell).toBeCloseTo((50 + 50) / (50 + 100 + 175), 12);
    expect(at0).toBeCloseTo((115 - perCell * (115 + 50)) / 2, 9);
    const spread = lump(0.2, moments(10, 4), moments(20, 9));
    const varied = labourBehind({ ...terms, lumps: [spread], draws: [draw([0.5, 0], [0.5, 10])] }, 1)(1);
    // 0.2 x 104 - 4, 0.2 x 409 - 16, 0.2 x 0.8 x 200; the draw varies by 25 about 5.
    const [labour, other, both] = [25 + 16.8, 75 + 25 + 65.8, 32];
    expect(varied.perCell).toBeCloseTo((labour + both) / (labour + 2 * both + other), 12);
    expect(varied.at0).toBeCloseTo(112 - varied.perCell * (112 + 40 + 4 + 5), 9);
  });

  it("counts faults that share as they are together", () => {
    const [a, b] = [lump(0.5, moments(0), moments(4)), lump(0.5, moments(0), moments(4))];
    const place: Shared = { ...cost(moments(8), moments(0)), members: new Set([a, b]) };
    const clusters = [clusterOf({ id: "c", lumps: [a, b], shared: [place], base: 0 })];
    // Labour 8 in three of four: varies by 12; parts by 8; together they vary by 36, so 8 of it is both, twice.
    const { at0, perCell } = labourBehind({ ...terms, lines: [], steady: [], clusters }, 1)(1);
    expect(perCell).toBeCloseTo((12 + 8) / 36, 9);
    expect(at0).toBeCloseTo(16 - perCell * (16 + 4), 9);
  });

  it("is all of it where nothing varies", () => {
    expect(labourBehind({ ...terms, lines: [], steady: [] }, 2)(1)).toEqual({ at0: 5, perCell: 0 });
  });
});
