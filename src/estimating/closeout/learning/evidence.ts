/** Observations made ready to be learnt from: all that does not depend on what is believed, worked out once. See learn.ts for the model. */
import type { Minutes, ThreePoint } from "../../input.js";
import { inMilli, inMinutes, NO_TIME, plus, type Times } from "../../labour/times.js";
import { type Belief, beliefWith, conditionVariance, type GradeBelief, type Strength } from "./belief.js";
import type { Observation } from "./observation.js";
import { type Standard, standardId } from "./standard.js";
import { shapeOf } from "./threePoint.js";

/** One observation. */
interface Piece {
  readonly job: string;
  readonly grade: string;
  /** ln(minutes / likely minutes by the book). */
  readonly x: number;
  readonly likely: Minutes;
  /** Its standards and the share of its likely minutes that rests on each. */
  readonly shares: readonly { readonly id: string; readonly share: number }[];
}

/** What was seen of one standard. */
export interface Seen {
  readonly standard: Standard;
  readonly pieces: readonly { readonly piece: Piece; readonly share: number; readonly weight: number }[];
  readonly jobs: number;
  /** Its times by the book, all together: the shape of its low, likely and high. */
  readonly reference: ThreePoint;
  /** The book's word for the next piece, unit condition included. */
  readonly prior: Belief;
}

export interface Evidence {
  readonly pieces: readonly Piece[];
  /** By standard id. */
  readonly seen: ReadonlyMap<string, Seen>;
}

/** A tenth either way; a book that is certain of a time could never learn it. */
const LEAST_VARIANCE = 0.01;

interface Gathered {
  readonly standard: Standard;
  readonly pieces: { readonly piece: Piece; readonly share: number }[];
  time: Times;
}

/** Observations of grades that the book does not have are left out. */
export function evidenceFrom(
  observations: readonly Observation[],
  grades: ReadonlyMap<string, GradeBelief>,
  strength: Strength,
): Evidence {
  const pieces: Piece[] = [];
  const gathered = new Map<string, Gathered>();
  for (const { job, grade, minutes, standard: all, rests } of observations) {
    const sum = rests.reduce((total, { time }) => total + time.likely, 0);
    if (!grades.has(grade) || !(sum > 0)) continue;
    const shares = rests.map(({ standard, time }) => ({ id: standardId(standard), share: time.likely / sum }));
    const x = Math.log(minutes / all.likely);
    const piece = { job, grade, x, likely: all.likely, shares };
    pieces.push(piece);
    rests.forEach(({ standard, time }, index) => {
      const { id, share } = shares[index]!;
      const known = gathered.get(id) ?? { standard, pieces: [], time: NO_TIME };
      gathered.set(id, known);
      known.pieces.push({ piece, share });
      known.time = plus(known.time, inMilli(time));
    });
  }
  return { pieces, seen: new Map([...gathered].map(([id, all]) => [id, seenOf(all, grades, strength)])) };
}

function seenOf({ standard, pieces, time }: Gathered, grades: ReadonlyMap<string, GradeBelief>, strength: Strength): Seen {
  const inJob = new Map<string, number>();
  let [total, condition] = [0, 0];
  for (const { piece, share } of pieces) {
    inJob.set(piece.job, (inJob.get(piece.job) ?? 0) + share);
    total += share;
    condition += share * conditionVariance(grades.get(piece.grade)!.bookCv);
  }
  const reference = inMinutes(time);
  const { mean, variance } = shapeOf(reference);
  const all = Math.max(LEAST_VARIANCE, variance + condition / total);
  const alike = condition / total / all;
  return {
    standard,
    pieces: pieces.map(({ piece, share }) => {
      const together = Math.max(1, inJob.get(piece.job)!);
      return { piece, share, weight: share / (1 + (together - 1) * alike) };
    }),
    jobs: inJob.size,
    reference,
    prior: beliefWith(Math.log(mean) - all / 2, all, strength.mean, strength.spread),
  };
}
