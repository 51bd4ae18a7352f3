/** What is believed of each standard, given what is believed of the grades. See learn.ts for the model. */
import type { ThreePoint } from "../../input.js";
import { type Belief, conditionVariance, type GradeBelief, predictedVariance } from "./belief.js";
import type { Evidence, Seen } from "./evidence.js";
import { robustlyUpdated } from "./robustFit.js";
import type { Standard } from "./standard.js";
import { type Shape, shapeOf } from "./threePoint.js";

export interface StandardBelief {
  readonly standard: Standard;
  /** Of ln(minutes / likely minutes by the book), unit condition included. */
  readonly prior: Belief;
  readonly belief: Belief;
  /** Its times by the book, all together: the shape of its low, likely and high. */
  readonly reference: ThreePoint;
  readonly observations: number;
  readonly jobs: number;
  /** Log variance that is the unit's condition and not the standard's. */
  readonly ofCondition: number;
}

/** By standard id. `priorOf` takes the place of the book as what was believed before. */
export function standardBeliefs(
  { seen }: Evidence,
  grades: ReadonlyMap<string, GradeBelief>,
  priorOf: (id: string, seen: Seen) => Belief = (_, { prior }) => prior,
): ReadonlyMap<string, StandardBelief> {
  const byGrade = new Map(
    [...grades].map(([id, { factor, cv }]) => [id, { log: Math.log(factor), condition: conditionVariance(cv) }]),
  );
  return new Map(
    [...seen].map(([id, all]) => {
      const prior = priorOf(id, all);
      let [total, condition] = [0, 0];
      const data = all.pieces.map(({ piece, share, weight }) => {
        const grade = byGrade.get(piece.grade)!;
        total += share;
        condition += share * grade.condition;
        return { x: piece.x - grade.log, weight };
      });
      const { standard, reference, jobs, pieces } = all;
      return [
        id,
        {
          standard,
          prior,
          belief: robustlyUpdated(prior, data),
          reference,
          observations: pieces.length,
          jobs,
          ofCondition: condition / total,
        },
      ];
    }),
  );
}

/** A coefficient of variation of 60 %, unless the book has more: a three-point time can hardly say more. */
const MOST_VARIANCE = Math.log1p(0.6 ** 2);

/** Minutes to expect in units of the book's likely ones, and the standard's own log variance: never less than a tenth of what was seen. */
export function expected({ belief, ofCondition, reference }: StandardBelief): Shape {
  const seen = predictedVariance(belief);
  const most = Math.max(MOST_VARIANCE, shapeOf(reference).variance);
  const variance = Math.min(most, Math.max(seen - ofCondition, seen / 10));
  return { mean: Math.exp(belief.mean + Math.min(seen, variance + ofCondition) / 2), variance };
}
