/**
 * What closed jobs say about a rate book's times. The quantity learnt is ln(minutes taken / likely minutes of the book).
 *
 * A piece of work speaks for each standard it is made of by that standard's share of its likely minutes. Pieces of one job share the
 * unit's condition, so m of them count as m / (1 + (m - 1) r), r the share of the variance that condition makes (the design effect of
 * Kish, Survey Sampling, 1965; from memory). What the condition adds is learnt by grade, from whole jobs, and is taken out of the
 * standards' spread, because the price of a job puts it in again.
 */
import type { RateBook } from "../../input.js";
import { median } from "../statistics.js";
import { type GradeBelief, gradesOf, predictedVariance, type Strength, USUAL_STRENGTH } from "./belief.js";
import { type Evidence, evidenceFrom, type Seen } from "./evidence.js";
import { gradeBeliefs, jobRatios } from "./gradeBelief.js";
import type { Observation } from "./observation.js";
import { type StandardBelief, standardBeliefs } from "./standardBelief.js";

interface Learnt {
  readonly standards: ReadonlyMap<string, StandardBelief>;
  readonly grades: ReadonlyMap<string, GradeBelief>;
  /** What would be believed of a standard, or of a grade, without one job; of the others as learnt. Those jobs that can move it most. */
  readonly standardWithout: (id: string) => readonly (Without<StandardBelief> & { readonly off: number })[];
  readonly gradeWithout: (id: string) => readonly Without<GradeBelief>[];
}

interface Without<Kind> {
  readonly job: string;
  readonly belief: Kind;
}

/** How far a job lies from what is believed without it, in deviations; below 0: it took less. */
function offFrom({ belief }: StandardBelief, pieces: Seen["pieces"], grades: ReadonlyMap<string, GradeBelief>): number {
  let [sum, n] = [0, 0];
  for (const { piece, weight } of pieces) {
    sum += weight * (piece.x - Math.log(grades.get(piece.grade)!.factor));
    n += weight;
  }
  return (sum / n - belief.mean) / Math.sqrt(predictedVariance(belief));
}

/** Standards and grades explain the same minutes, so each is learnt in turn given the other. Further turns change less than a thousandth. */
const TURNS = 4;

export function learn(observations: readonly Observation[], rateBook: RateBook, strength: Strength = USUAL_STRENGTH): Learnt {
  let before = gradesOf(rateBook);
  const evidence = evidenceFrom(observations, before, strength);
  let standards = standardBeliefs(evidence, before);
  for (let turn = 1; turn < TURNS; turn++) {
    before = gradeBeliefs(evidence, standards, before, strength);
    standards = standardBeliefs(evidence, before);
  }
  const grades = gradeBeliefs(evidence, standards, before, strength);
  return {
    ...{ standards, grades },
    standardWithout: (id) => {
      const [all, centre] = [evidence.seen.get(id)!, standards.get(id)!.belief.mean];
      const off = all.pieces.map(({ piece, weight }) => ({
        job: piece.job,
        off: weight * (piece.x - Math.log(before.get(piece.grade)!.factor) - centre),
      }));
      return furthest(off).map((job) => {
        const [its, pieces] = [true, false].map((own) => all.pieces.filter(({ piece }) => (piece.job === job) === own));
        const seen = new Map([[id, { ...all, pieces: pieces!, jobs: all.jobs - 1 }]]);
        const without = standardBeliefs({ pieces: [], seen }, before).get(id)!;
        return { job, belief: without, off: offFrom(without, its!, before) };
      });
    },
    gradeWithout: (id) => {
      const off = jobRatios(evidence, standards, grades).filter(({ grade }) => grade === id);
      const centre = median(off.map(({ x }) => x)) ?? 0;
      return furthest(off.map(({ job, x }) => ({ job, off: x - centre }))).map((job) => {
        const rest: Evidence = { ...evidence, pieces: evidence.pieces.filter((piece) => piece.job !== job) };
        return { job, belief: gradeBeliefs(rest, standards, before, strength).get(id)! };
      });
    },
  };
}

/** Jobs tried one by one; of one job alone nothing would be left. */
const TRIED = 4;

function furthest(pieces: readonly { readonly job: string; readonly off: number }[]): string[] {
  const sums = new Map<string, number>();
  for (const { job, off } of pieces) sums.set(job, (sums.get(job) ?? 0) + off);
  const jobs = [...sums].sort(([, a], [, b]) => Math.abs(b) - Math.abs(a)).map(([job]) => job);
  return jobs.length < 2 ? [] : jobs.slice(0, TRIED);
}
