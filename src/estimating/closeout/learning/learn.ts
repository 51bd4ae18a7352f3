/**
 * What closed jobs say about a rate book's times. The quantity learnt is ln(minutes taken / likely minutes of the book).
 *
 * A piece of work speaks for each standard it is made of by that standard's share of its likely minutes. Pieces of one job share the
 * unit's condition, so m of them count as m / (1 + (m - 1) r), r the share of the variance that condition makes (the design effect of
 * Kish, Survey Sampling, 1965; from memory). What the condition adds is learnt by grade, from whole jobs, and is taken out of the
 * standards' spread, because the price of a job puts it in again.
 */
import type { RateBook } from "../../input.js";
import { type GradeBelief, gradesOf, type Strength, USUAL_STRENGTH } from "./belief.js";
import { type Evidence, evidenceFrom } from "./evidence.js";
import type { Observation } from "./observation.js";
import { expected, type StandardBelief, standardBeliefs } from "./standardBelief.js";

interface Learnt {
  readonly standards: ReadonlyMap<string, StandardBelief>;
  readonly grades: ReadonlyMap<string, GradeBelief>;
}

/** Standards and grades explain the same minutes, so each is learnt in turn given the other. Further turns change less than a thousandth. */
const TURNS = 4;

export function learn(observations: readonly Observation[], rateBook: RateBook, strength: Strength = USUAL_STRENGTH): Learnt {
  let grades = gradesOf(rateBook);
  const evidence = evidenceFrom(observations, grades, strength);
  let standards = standardBeliefs(evidence, grades);
  for (let turn = 1; turn < TURNS; turn++) {
    grades = gradeBeliefs(evidence, standards, grades, strength);
    standards = standardBeliefs(evidence, grades);
  }
  return { standards, grades: gradeBeliefs(evidence, standards, grades, strength) };
}

interface JobRatio {
  readonly grade: string;
  /** Minutes taken over minutes expected. */
  readonly ratio: number;
  /** Relative variance that its pieces of work make by themselves. */
  readonly own: number;
}

/**
 * What condition does to a job: by grade, how much longer all work on a unit takes, and how much that varies from unit to unit.
 * Both are shrunk towards the book by counting jobs. The percentage is learnt against the grade at 100 % with most jobs, since what
 * all grades have in common is the standards'. The variance among units is that among jobs less what their pieces of work make.
 */
function gradeBeliefs(
  evidence: Evidence,
  standards: ReadonlyMap<string, StandardBelief>,
  grades: ReadonlyMap<string, GradeBelief>,
  strength: Strength,
): ReadonlyMap<string, GradeBelief> {
  const ratios = jobRatios(evidence, standards, grades);
  const found = [...grades.values()].map((grade) => {
    const jobs = ratios.filter((job) => job.grade === grade.id);
    return { grade, jobs, mean: average(jobs.map(({ ratio }) => ratio)) ?? 1 };
  });
  const base = found
    .filter(({ grade, jobs }) => grade.labourPercent === 100 && jobs.length > 0)
    .sort((a, b) => b.jobs.length - a.jobs.length)[0];
  return new Map(
    found.map(({ grade, jobs, mean }) => {
      const n = jobs.length;
      const against = base ? (grade.factor * mean) / (base.grade.factor * base.mean) : 1;
      const factor = grade === base?.grade || n === 0 ? 1 : against ** (n / (n + strength.mean));
      const cv = Math.sqrt(unitVariance(jobs, mean, grade.bookCv, 2 * strength.spread));
      return [grade.id, { ...grade, factor, cv, jobs: n }];
    }),
  );
}

/**
 * Variance among units: that among jobs, less what their own pieces of work make; never below 0. A job counts by the square of the
 * share of its variance that the book lays to the unit: of a job of one piece, nobody can tell whether it was the unit or the piece.
 * One job is its own mean and tells nothing of how units differ.
 */
function unitVariance(jobs: readonly JobRatio[], mean: number, bookCv: number, weight: number): number {
  const book = Math.max(bookCv, LEAST_CV) ** 2;
  const apart = (jobs.length - 1) / jobs.length;
  if (jobs.length < 2) return bookCv ** 2;
  let [counted, sum] = [0, 0];
  for (const { ratio, own } of jobs) {
    const tells = apart * (book / (book + own)) ** 2;
    counted += tells;
    sum += tells * ((ratio / mean - 1) ** 2 / apart - own);
  }
  const found = Math.max(0, sum / counted);
  return (weight * bookCv ** 2 + counted * found) / (weight + counted);
}
/** A book that says that all units are alike could never learn that they are not. */
const LEAST_CV = 0.05;

function jobRatios(
  { pieces }: Evidence,
  standards: ReadonlyMap<string, StandardBelief>,
  grades: ReadonlyMap<string, GradeBelief>,
): JobRatio[] {
  const shapes = new Map([...standards].map(([id, belief]) => [id, expected(belief)]));
  const sums = new Map<string, { grade: string; taken: number; expected: number; own: number }>();
  for (const { job, grade, x, likely, shares } of pieces) {
    let [mean, variance] = [0, 0];
    for (const { id, share } of shares) {
      const shape = shapes.get(id)!;
      mean += share * shape.mean;
      variance += share * shape.variance;
    }
    const due = likely * grades.get(grade)!.factor * mean;
    const sum = sums.get(job) ?? { grade, taken: 0, expected: 0, own: 0 };
    sum.taken += likely * Math.exp(x);
    sum.expected += due;
    sum.own += due * due * Math.expm1(variance);
    sums.set(job, sum);
  }
  return [...sums.values()].map(({ grade, taken, expected: due, own }) => ({
    grade,
    ratio: taken / due,
    own: own / (due * due),
  }));
}

const average = (values: readonly number[]): number | undefined =>
  values.length === 0 ? undefined : values.reduce((sum, value) => sum + value, 0) / values.length;
