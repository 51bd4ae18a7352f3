/** The whole of learning against an invented truth (simulatedShop.ts): two hundred jobs to learn from, two hundred to be judged by. */
import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import { accuracyOf } from "../../../src/estimating/closeout/accuracy/accuracy.js";
import { whatIf } from "../../../src/estimating/closeout/accuracy/whatIf.js";
import { type ClosedJob, observationsOf } from "../../../src/estimating/closeout/learning/observation.js";
import { proposeRateBook } from "../../../src/estimating/closeout/learning/propose.js";
import type { RateBook } from "../../../src/estimating/input.js";
import { binomialMasses } from "../../../src/estimating/risk/goodCounts.js";
import { BOOK, forecast, minutesTaken, simulatedShop, TRUTH } from "./simulatedShop.js";

/** The middle 95 % of a binomial: fewest and most jobs of `of` that a true P80 covers. */
function covered(of: number): readonly [least: number, most: number] {
  const tail = 0.025;
  const masses = binomialMasses(of, 0.8);
  const atLeast = (count: number) => masses.slice(count).reduce((sum, mass) => sum + mass, 0);
  let [least, most] = [0, of];
  while (1 - atLeast(least + 1) < tail) least += 1;
  while (atLeast(most) < tail) most -= 1;
  return [least, most];
}

function learnt200(seed: number) {
  const jobs = simulatedShop(400, seed);
  const observations = jobs.slice(0, 200).flatMap((job) => observationsOf(job, BOOK) ?? []);
  const { proposals, apply } = proposeRateBook(BOOK, observations);
  const ids = proposals.map(({ id }) => id);
  return { proposals, learnt: apply(ids, "2026-12-01"), judged: jobs.slice(200) };
}

const accuracy = (jobs: readonly ClosedJob[], book: RateBook) =>
  accuracyOf(jobs.map((job) => ({ ...forecast(job, book), actual: minutesTaken(job) })))!;

describe("a shop that learns from its first two hundred jobs", () => {
  const { learnt, judged, proposals } = learnt200(2026);
  const [before, after] = [accuracy(judged, BOOK), accuracy(judged, learnt)];
  const [least, most] = covered(200);

  it("is expected to cover 149 to 171 of 200 by a true P80, as jstat has it", () => {
    expect([least, most]).toEqual([149, 171]);
    const atMost = (k: number) => jStat.binomial.cdf(k, 200, 0.8);
    expect(atMost(148) < 0.025 && atMost(149) >= 0.025 && 1 - atMost(170) >= 0.025 && 1 - atMost(171) < 0.025).toBe(true);
  });

  it("is wrong by fewer minutes on the next two hundred", () => {
    expect(after.meanAbsoluteError).toBeLessThan(0.85 * before.meanAbsoluteError);
    expect(Math.abs(after.bias)).toBeLessThan(0.5 * Math.abs(before.bias));
    expect(after.pinball80!).toBeLessThan(before.pinball80!);
    console.info(
      `mean absolute error ${before.meanAbsoluteError.toFixed(1)} -> ${after.meanAbsoluteError.toFixed(1)} min;`,
      `P80 covered ${before.coverage80!.within} -> ${after.coverage80!.within} of 200 (${least} to ${most} expected)`,
    );
  });

  it("has a P80 that covers eight jobs in ten, which the old book did not have", () => {
    expect(before.coverage80!.within).toBeLessThan(least);
    expect(after.coverage80!.within).toBeGreaterThanOrEqual(least);
    expect(after.coverage80!.within).toBeLessThanOrEqual(most);
  });

  it("finds what its grades really do", () => {
    for (const { id, labourPercent, spreadPercent } of learnt.grades) {
      const truth = TRUTH[id as keyof typeof TRUTH];
      if (!truth) continue;
      expect(Math.abs(labourPercent / truth.percent - 1)).toBeLessThan(0.15);
      // A robust spread of thirty jobs is a tenth less sure than a plain one.
      expect(Math.abs(spreadPercent / 100 - truth.cv)).toBeLessThan(0.077);
    }
  });

  it("would have priced the next jobs nearer to what they took", () => {
    const actual = (job: (typeof judged)[number]) => Math.round(minutesTaken(job) * 80);
    const { against, leftOut } = whatIf(
      judged.map((job) => ({ job: job.job, input: job.input, actual: actual(job) })),
      learnt,
    );
    expect(leftOut).toEqual([]);
    expect(against!.after).toBeGreaterThan(against!.before);
    expect(proposals.length).toBeGreaterThan(20);
  });

  it("covers as many in shop after shop: three more, six hundred jobs", () => {
    const shops = [1, 2, 3].map(learnt200);
    const within = shops.reduce((sum, shop) => sum + accuracy(shop.judged, shop.learnt).coverage80!.within, 0);
    const [fewest, highest] = covered(600);
    console.info(`three more shops: P80 covered ${within} of 600 (${fewest} to ${highest} expected)`);
    expect(within).toBeGreaterThanOrEqual(fewest);
    expect(within).toBeLessThanOrEqual(highest);
  });
});
