/** What is believed of each condition grade, given what is believed of the standards. See learn.ts for the model. */
import { mean } from "../statistics.js";
import { conditionVariance, type GradeBelief, type Strength } from "./belief.js";
import type { Evidence } from "./evidence.js";
import { robustFit } from "./robustFit.js";
import { expected, type StandardBelief } from "./standardBelief.js";

interface JobRatio {
  readonly job: string;
  readonly grade: string;
  /** ln(minutes taken / minutes expected). */
  readonly x: number;
  /** Variance of it that its pieces of work make by themselves. */
  readonly own: number;
}

/**
 * What condition does to a job: by grade, how much longer all work on a unit takes, and how much that varies from unit to unit.
 * Both are shrunk towards the book by counting jobs. The percentage is learnt against the grade at 100 % with most jobs, since what
 * all grades have in common is the standards'. The variance among units is that among jobs less what their pieces of work make.
 */
export function gradeBeliefs(
  evidence: Evidence,
  standards: ReadonlyMap<string, StandardBelief>,
  grades: ReadonlyMap<string, GradeBelief>,
  strength: Strength,
): ReadonlyMap<string, GradeBelief> {
  const ratios = jobRatios(evidence, standards, grades);
  const found = [...grades.values()].map((grade) => {
    const jobs = ratios.filter((job) => job.grade === grade.id);
    return { grade, jobs, units: unitsOf(jobs, grade, 2 * strength.spread) };
  });
  const base = found
    .filter(({ grade, jobs }) => grade.labourPercent === 100 && jobs.length > 0)
    .sort((a, b) => b.jobs.length - a.jobs.length)[0];
  return new Map(
    found.map(({ grade, jobs, units }) => {
      const n = jobs.length;
      const against = base ? (grade.factor * units.mean) / (base.grade.factor * base.units.mean) : 1;
      const factor = grade === base?.grade || n === 0 ? 1 : against ** (n / (n + strength.mean));
      return [grade.id, { ...grade, factor, cv: units.cv, jobs: n }];
    }),
  );
}

/**
 * The jobs of a grade together: mean of minutes taken over expected, and how units differ, by a robust fit. The
 * variance among units is that among jobs, less what their own pieces of work make; never below 0. A job counts by the square of the
 * share of its variance that the book lays to the unit: of a job of one piece, nobody can tell whether it was the unit or the piece.
 * One job is its own mean and tells nothing of how units differ.
 */
function unitsOf(jobs: readonly JobRatio[], { bookCv }: GradeBelief, weight: number): { mean: number; cv: number } {
  if (jobs.length === 0) return { mean: 1, cv: bookCv };
  const book = Math.max(bookCv, LEAST_CV) ** 2;
  const apart = (jobs.length - 1) / jobs.length;
  const { centre, spread: cv } = robustFit(
    jobs.map(({ x }) => ({ x, weight: 1 })),
    bookCv,
    (of, at) => Math.sqrt(conditionVariance(of) + jobs[at]!.own),
    (squares) => {
      let [counted, sum] = [0, 0];
      squares.forEach(({ x, weight: told }, at) => {
        const { own } = jobs[at]!;
        const tells = told * apart * (book / (book + own)) ** 2;
        counted += tells;
        if (tells > 0) sum += tells * (x / apart - own);
      });
      const found = counted > 0 ? Math.expm1(Math.max(0, sum / counted)) : 0;
      return Math.sqrt((weight * bookCv ** 2 + counted * found) / (weight + counted));
    },
  );
  const own = mean(jobs.map((job) => job.own))!;
  return { mean: Math.exp(centre + (conditionVariance(cv) + own) / 2), cv };
}
/** A book that says that all units are alike could never learn that they are not. */
const LEAST_CV = 0.05;

export function jobRatios(
  { pieces }: Evidence,
  standards: ReadonlyMap<string, StandardBelief>,
  grades: ReadonlyMap<string, GradeBelief>,
): JobRatio[] {
  const shapes = new Map([...standards].map(([id, belief]) => [id, expected(belief)]));
  const sums = new Map<string, { grade: string; taken: number; expected: number; own: number }>();
  for (const { job, grade, x, likely, shares } of pieces) {
    let [longer, variance] = [0, 0];
    for (const { id, share } of shares) {
      const shape = shapes.get(id)!;
      longer += share * shape.mean;
      variance += share * shape.variance;
    }
    const due = likely * grades.get(grade)!.factor * longer;
    const sum = sums.get(job) ?? { grade, taken: 0, expected: 0, own: 0 };
    sum.taken += likely * Math.exp(x);
    sum.expected += due;
    sum.own += due * due * Math.expm1(variance);
    sums.set(job, sum);
  }
  return [...sums].map(([job, { grade, taken, expected: due, own }]) => ({
    job,
    grade,
    x: Math.log(taken / due),
    own: Math.log1p(own / (due * due)),
  }));
}
