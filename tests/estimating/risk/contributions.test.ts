/** What certainty would take off, held to its definition: two distributions at full resolution, one of them with the thing at its expected cost. */
import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import { contributionsTo, type RiskSource } from "../../../src/estimating/risk/contributions.js";
import { distributionOf } from "../../../src/estimating/risk/distribution.js";
import type { RiskModel } from "../../../src/estimating/risk/model.js";
import { bought, found, HUNDRED, job, line } from "./jobShapes.js";

const P = 0.8;
const wide = line(60, 90, 300);
const beside = line(60, 120, 400, false);
const part = bought([0.8, 4000], [0.2, 15_000]);
const fault = found(0.4, 8000, [line(30, 60, 120)]);
const model = job(0.25, 5000, [line(30, 40, 60), wide, beside], [fault], [part]);
const mean = ({ time: { low, likely, high } }: typeof wide) => (low + 4 * likely + high) / 6;
const certain = (of: typeof wide) => line(mean(of), mean(of), mean(of), of.underCondition);

describe("what certainty takes off a percentile", () => {
  const shares = () => contributionsTo(model, P);

  it.each<[RiskSource, string, RiskModel]>([
    ["labour", wide.id, { ...model, labour: model.labour.map((each) => (each === wide ? certain(wide) : each)) }],
    ["labour", beside.id, { ...model, labour: model.labour.map((each) => (each === beside ? certain(beside) : each)) }],
    ["sourcing", part.id, { ...model, sourcing: [bought([1, 0.8 * 4000 + 0.2 * 15_000])] }],
    ["if found", fault.id, { ...model, ifFound: [], fixed: 5000 + 0.4 * 8000, labour: [...model.labour, line(26, 26, 26)] }],
    ["condition", "condition", { ...model, conditionCv: 0 }],
  ])("is the percentile less the same with it at its expected cost: %s %s", (source, id, known) => {
    // 0.4 of the fault's (30 + 4 x 60 + 120) / 6 = 65 minutes are 26, and the condition touches them.
    const { takesOff } = shares().find((each) => each.source === source && each.id === id)!;
    const full = distributionOf(model);
    const defined = full.quantile(P) - distributionOf(known).quantile(P);
    expect(Math.abs(takesOff - defined)).toBeLessThan(0.03 * full.sd);
  });

  it("comes largest first, one for each thing that is uncertain", () => {
    const amounts = shares().map(({ takesOff }) => takesOff);
    expect(amounts).toEqual([...amounts].sort((a, b) => b - a));
    expect(shares()).toHaveLength(6);
    const all = contributionsTo(HUNDRED(0.25), P);
    expect(all).toHaveLength(50 + 40 + 10 + 1);
    expect(new Set(all.map(({ source }) => source))).toEqual(new Set(["labour", "sourcing", "if found", "condition"]));
  });

  it("is nothing to list when nothing is uncertain", () => {
    expect(contributionsTo(job(0.25, 5000, []), P)).toEqual([]);
  });
});

describe("the total of one line", () => {
  it.each([
    [20, 30, 90],
    [10, 10, 40],
    [5, 60, 60],
  ])("has the percentiles of the beta of the reference library: %d, %d, %d minutes", (low, likely, high) => {
    const total = distributionOf(job(0, 0, [line(low, likely, high)]));
    const alpha = 1 + (4 * (likely - low)) / (high - low);
    expect(total.expected / 100).toBeCloseTo(low + (high - low) * jStat.beta.mean(alpha, 6 - alpha), 9);
    expect(total.sd ** 2 / 10_000).toBeCloseTo((high - low) ** 2 * jStat.beta.variance(alpha, 6 - alpha), 6);
    for (const p of [0.1, 0.5, 0.8, 0.95]) {
      const reference = low + (high - low) * jStat.beta.inv(p, alpha, 6 - alpha);
      expect(Math.abs(total.quantile(p) / 100 / reference - 1)).toBeLessThan(0.002);
    }
  });
});
