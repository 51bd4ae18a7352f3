/** What is believed of each standard, given what is believed of the grades. See learn.ts for the model. */
import type { ThreePoint } from "../../input.js";
import { inMilli, inMinutes, plus } from "../../labour/times.js";
import { type Belief, beliefWith, predictedVariance, updated, type Weighed } from "./belief.js";
import { conditionVariance, type GradeBelief } from "./grade.js";
import type { Observation } from "./observation.js";
import { type Standard, standardId } from "./standard.js";
import type { Strength } from "./strength.js";
import { shapeOf } from "./threePoint.js";

export interface StandardBelief {
  readonly standard: Standard;
  /** Of ln(minutes / likely minutes), unit condition included. */
  readonly prior: Belief;
  readonly belief: Belief;
  /** All that was seen of it by the book: the shape of its low, likely and high. */
  readonly reference: ThreePoint;
  readonly observations: number;
  readonly jobs: number;
  /** Log variance that is the unit's condition and not the standard's. */
  readonly ofCondition: number;
}

interface Evidence {
  readonly job: string;
  readonly x: number;
  readonly share: number;
  readonly time: ThreePoint;
  readonly grade: GradeBelief;
}

/** By id. `priorOf` replaces the book as what was believed before. */
export function standardBeliefs(
  observations: readonly Observation[],
  grades: ReadonlyMap<string, GradeBelief>,
  strength: Strength,
  priorOf?: (id: string) => Belief,
): ReadonlyMap<string, StandardBelief> {
  const evidence = new Map<string, { standard: Standard; seen: Evidence[] }>();
  for (const { job, grade: id, minutes, standard: all, rests } of observations) {
    const grade = grades.get(id);
    const sum = rests.reduce((total, { time }) => total + time.likely, 0);
    if (!grade || !(sum > 0)) continue;
    const x = Math.log(minutes / (all.likely * grade.factor));
    for (const { standard, time } of rests) {
      const seen = { job, x, share: time.likely / sum, time, grade };
      const known = evidence.get(standardId(standard));
      if (known) known.seen.push(seen);
      else evidence.set(standardId(standard), { standard, seen: [seen] });
    }
  }
  return new Map([...evidence].map(([id, { standard, seen }]) => [id, beliefFrom(standard, seen, strength, priorOf?.(id))]));
}

function beliefFrom(
  standard: Standard,
  seen: readonly Evidence[],
  { mean: k, spread: a }: Strength,
  given?: Belief,
): StandardBelief {
  const weightOf = new Map<string, number>();
  for (const { job, share } of seen) weightOf.set(job, (weightOf.get(job) ?? 0) + share);
  const total = seen.reduce((sum, { share }) => sum + share, 0);
  const weighed = (of: (grade: GradeBelief) => number) =>
    seen.reduce((sum, { share, grade }) => sum + share * of(grade), 0) / total;
  const reference = inMinutes(seen.map(({ time }) => inMilli(time)).reduce(plus));
  const { mean, variance } = shapeOf(reference);
  const inBook = weighed(({ bookCv }) => conditionVariance(bookCv));
  const before = Math.max(LEAST_VARIANCE, variance + inBook);
  const alike = inBook / before;
  const data = seen.map(({ job, x, share }): Weighed => {
    const together = Math.max(1, weightOf.get(job)!);
    return { x, weight: share / (1 + (together - 1) * alike) };
  });
  const prior = given ?? beliefWith(Math.log(mean) - before / 2, before, k, a);
  return {
    standard,
    prior,
    belief: updated(prior, data),
    reference,
    observations: seen.length,
    jobs: weightOf.size,
    ofCondition: weighed(({ cv }) => conditionVariance(cv)),
  };
}

/** A tenth either way; a book that is certain of a time could never learn it. */
const LEAST_VARIANCE = 0.01;

/** Minutes to expect in units of the book's likely ones, and the standard's own log variance: never less than a tenth of what was seen. */
export function expected({ belief, ofCondition }: Pick<StandardBelief, "belief" | "ofCondition">) {
  const seen = predictedVariance(belief);
  return { mean: Math.exp(belief.mean + seen / 2), variance: Math.max(seen - ofCondition, seen / 10) };
}
