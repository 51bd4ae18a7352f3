/**
 * What closed jobs say about a rate book's times. The quantity learnt is ln(minutes taken / likely minutes of the book).
 *
 * A piece of work speaks for each standard it is made of by that standard's share of its likely minutes. Pieces of one job share the
 * unit's condition, so m of them count as m / (1 + (m - 1) r), r the share of the variance that condition makes (the design effect of
 * Kish, Survey Sampling, 1965; from memory). What the condition adds is learnt by grade, from whole jobs, and is taken out of the
 * standards' spread, because the price of a job puts it in again.
 */
import type { RateBook } from "../../input.js";
import { evidenceFrom } from "./evidence.js";
import { type GradeBelief, gradesOf } from "./grade.js";
import { gradeBeliefs } from "./gradeBelief.js";
import type { Observation } from "./observation.js";
import { type StandardBelief, standardBeliefs } from "./standardBelief.js";
import { type Strength, USUAL_STRENGTH } from "./strength.js";

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
