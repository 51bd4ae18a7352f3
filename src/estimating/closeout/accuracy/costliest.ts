/** The standards that cost the shop most: minutes taken beyond those the book charges, at the rate they were charged at. */
import type { Minor, Minutes, RateBook } from "../../input.js";
import { chargedMilli, inMilli } from "../../labour/times.js";
import { fromMilli } from "../../money/scales.js";
import type { Observation } from "../learning/observation.js";
import { type Standard, standardId } from "../learning/standard.js";

export interface Costly {
  readonly standard: Standard;
  readonly observations: number;
  readonly jobs: number;
  /** By the book, condition grade included, and taken; a piece of work counts for each of its standards by that one's share. */
  readonly allowed: Minutes;
  readonly taken: Minutes;
  /** Worth of the difference; to the minor unit. */
  readonly cost: Minor;
}

/** Equal costs stand in the order of their ids. */
export const dearest = (all: readonly Costly[], most = 5): Costly[] =>
  all
    .filter(({ cost }) => cost > 0)
    .sort((a, b) => b.cost - a.cost || (standardId(a.standard) < standardId(b.standard) ? -1 : 1))
    .slice(0, most);

/** Every standard that was observed; the costs of two sets of jobs add up but for rounding. */
export function costsOf(observations: readonly Observation[], rateBook: RateBook): Costly[] {
  const sums = new Map<
    string,
    { standard: Standard; observations: number; jobs: Set<string>; allowed: number; taken: number; cost: number }
  >();
  for (const { job, minutes, standard: all, rests, ratePerHour } of observations) {
    const likely = rests.reduce((total, { time }) => total + time.likely, 0);
    const due = fromMilli(chargedMilli(inMilli(all), rateBook));
    for (const { standard, time } of rests) {
      const share = time.likely / likely;
      const id = standardId(standard);
      const sum = sums.get(id) ?? { standard, observations: 0, jobs: new Set(), allowed: 0, taken: 0, cost: 0 };
      sums.set(id, sum);
      sum.observations += 1;
      sum.jobs.add(job);
      sum.allowed += share * due;
      sum.taken += share * minutes;
      sum.cost += (share * (minutes - due) * ratePerHour) / 60;
    }
  }
  const milli = (minutes: number): Minutes => Math.round(minutes * 1000) / 1000;
  return [...sums.values()].map((sum) => ({
    ...sum,
    jobs: sum.jobs.size,
    allowed: milli(sum.allowed),
    taken: milli(sum.taken),
    cost: Math.round(sum.cost),
  }));
}
