/**
 * A risk model as plain moments in money (minor units, not rounded): the total is C x (sure + lines) + fixed + steady
 * + sum of B x (C x labour + other), C the condition factor, B one Bernoulli per lump. Probabilities 0 and 1, certain times and
 * single outcomes are folded away here, so that everything left is uncertain.
 */
import type { Chance, LabourRisk, RiskModel } from "./model.js";
import { worth } from "./model.js";
import { pertMean, pertThird, pertVariance } from "./pert.js";
import { twoPoint } from "./twoPoint.js";

/** Mean, variance and third cumulant. */
export interface Moments {
  readonly mean: number;
  readonly variance: number;
  readonly third: number;
}

/** A beta-PERT line in money. */
export interface Line extends Moments {
  readonly id: string;
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** Outcomes of buying one part, independent of the unit's condition. */
export interface Draw extends Moments {
  readonly id: string;
  readonly outcomes: readonly Chance[];
}

/** Costs `labour` x C + `other` with `probability`, else nothing. */
export interface Lump {
  readonly id: string;
  readonly probability: number;
  /** Under condition. */
  readonly labour: Moments;
  readonly lines: readonly Line[];
  /** Parts, and labour the condition does not touch. */
  readonly other: Moments;
  /** The same as few amounts: exact for up to 16 combinations of outcomes, else with the same three moments. */
  readonly otherChances: readonly Chance[];
}

export interface Terms {
  readonly cv: number;
  readonly fixed: number;
  /** Certain labour under condition, before the factor. */
  readonly sure: number;
  /** Under condition. */
  readonly lines: readonly Line[];
  /** Labour that the condition does not touch. */
  readonly steady: readonly Line[];
  readonly draws: readonly Draw[];
  readonly lumps: readonly Lump[];
}

const MOST_COMBINATIONS = 16;
const NOTHING: Moments = { mean: 0, variance: 0, third: 0 };

export function termsOf(model: RiskModel): Terms {
  const planned = [...model.labour];
  const sourcing = [...model.sourcing];
  const lumps: Lump[] = [];
  let fixed = model.fixed;
  for (const found of model.ifFound) {
    if (found.probability >= 1) {
      planned.push(...found.labour);
      sourcing.push(...(found.sourcing ?? []));
      fixed += found.parts;
    } else if (found.probability > 0) {
      const lines = found.labour.map(lineOf);
      const under = lines.filter((_, index) => found.labour[index]!.underCondition);
      const steady = lines.filter((_, index) => !found.labour[index]!.underCondition);
      const parts = combined([[{ probability: 1, amount: found.parts }], ...(found.sourcing ?? []).map((part) => part.outcomes)]);
      const otherChances = combined([parts, twoPoint(sumOf(steady))]);
      const lump: Lump = {
        id: found.id,
        probability: found.probability,
        labour: sumOf(under),
        lines: under,
        other: momentsOf(otherChances),
        otherChances,
      };
      if (lump.labour.mean + lump.other.mean > 0) lumps.push(lump);
    }
  }
  let sure = 0;
  const lines: Line[] = [];
  const steady: Line[] = [];
  for (const risk of planned) {
    const line = lineOf(risk);
    if (line.variance > 0) (risk.underCondition ? lines : steady).push(line);
    else if (risk.underCondition) sure += line.mean;
    else fixed += line.mean;
  }
  const draws: Draw[] = [];
  for (const part of sourcing) {
    const moments = momentsOf(part.outcomes);
    if (moments.variance > 0) draws.push({ id: part.id, outcomes: part.outcomes, ...moments });
    else fixed += moments.mean;
  }
  const conditioned = sure > 0 || lines.length > 0 || lumps.some((lump) => lump.labour.mean > 0);
  return conditioned && model.conditionCv > 0
    ? { cv: model.conditionCv, fixed, sure, lines, steady, draws, lumps }
    : { cv: 0, fixed: fixed + sure, sure: 0, lines, steady, draws, lumps };
}

function lineOf(risk: LabourRisk): Line {
  const points = {
    low: worth(risk.time.low, risk.ratePerHour),
    likely: worth(risk.time.likely, risk.ratePerHour),
    high: worth(risk.time.high, risk.ratePerHour),
  };
  return { id: risk.id, ...points, mean: pertMean(points), variance: pertVariance(points), third: pertThird(points) };
}

/** The sum of independent amounts. */
function combined(lists: readonly (readonly Chance[])[]): readonly Chance[] {
  return lists.reduce<readonly Chance[]>(
    (sums, list) => {
      if (sums.length * list.length > MOST_COMBINATIONS) return twoPoint(sumOf([momentsOf(sums), momentsOf(list)]));
      return sums.flatMap((a) => list.map((b) => ({ probability: a.probability * b.probability, amount: a.amount + b.amount })));
    },
    [{ probability: 1, amount: 0 }],
  );
}

/** Moments of one of several amounts. No outcomes: nothing, for certain. */
export function momentsOf(outcomes: readonly Chance[]): Moments {
  const first = outcomes[0]?.amount ?? 0;
  if (outcomes.every(({ amount }) => amount === first)) return { mean: first, variance: 0, third: 0 };
  const mean = outcomes.reduce((sum, { probability, amount }) => sum + probability * amount, 0);
  const central = (power: number) =>
    outcomes.reduce((sum, { probability, amount }) => sum + probability * (amount - mean) ** power, 0);
  return { mean, variance: central(2), third: central(3) };
}

/** Moments of a sum of independent terms. */
export const sumOf = (terms: readonly Moments[]): Moments =>
  terms.reduce(
    (sum, term) => ({
      mean: sum.mean + term.mean,
      variance: sum.variance + term.variance,
      third: sum.third + term.third,
    }),
    NOTHING,
  );
