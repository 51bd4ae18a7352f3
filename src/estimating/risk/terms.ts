/**
 * A risk model as plain moments in money (minor units, not rounded): the total is C x (sure + lines) + fixed + steady
 * + draws + sum of B x (C x labour + other), C the condition factor, B one Bernoulli per lump. Probabilities of 0 and 1, certain times and
 * single outcomes are folded away here, so that everything left is uncertain.
 */
import { type Moments, momentsOf, sumOf, twoPoint } from "./cumulants.js";
import { type Line, lineOf, UNFELT } from "./line.js";
import type { Chance, FoundRisk, RiskModel } from "./model.js";

/** What buying one part may come to over the least it can, independent of the unit's condition. */
export interface Draw extends Moments {
  readonly id: string;
  readonly outcomes: readonly Chance[];
}

export interface Terms {
  readonly cv: number;
  /** Certain; the total is never below it. */
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

/** Rarer than this is never. */
const NEVER = 1e-9;

/** Of one model they are asked for by its total, its allowances and its contributions. */
const known = new WeakMap<RiskModel, Terms>();

export function termsOf(model: RiskModel): Terms {
  const terms = known.get(model) ?? termsFrom(model);
  known.set(model, terms);
  return terms;
}

function termsFrom(model: RiskModel): Terms {
  const planned = [...model.labour];
  const sourcing = [...model.sourcing];
  const lumps: Lump[] = [];
  let fixed = model.fixed;
  for (const found of model.ifFound) {
    if (found.probability >= 1 - NEVER) {
      planned.push(...found.labour);
      sourcing.push(...(found.sourcing ?? []));
      fixed += found.parts;
    } else if (found.probability > NEVER) {
      const lump = lumpOf(found);
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
  for (const { id, outcomes } of sourcing) {
    const { mean, variance, third } = momentsOf(outcomes);
    const least = variance > 0 ? leastOf(outcomes) : mean;
    fixed += least;
    if (variance > 0) {
      const over = outcomes.map(({ probability, amount }) => ({ probability, amount: amount - least }));
      draws.push({ id, outcomes: over, mean: mean - least, variance, third });
    }
  }
  const labour = [...lines, ...lumps.map((lump) => lump.labour)].reduce((sum, { mean }) => sum + mean, sure);
  return model.conditionCv * labour > UNFELT
    ? { cv: model.conditionCv, fixed, sure, lines, steady, draws, lumps }
    : { cv: 0, fixed: fixed + sure, sure: 0, lines, steady, draws, lumps };
}

const leastOf = (outcomes: readonly Chance[]): number =>
  outcomes.reduce(
    (least, { probability, amount }) => (probability > 0 ? Math.min(least, amount) : least),
    Number.POSITIVE_INFINITY,
  );

/** What may turn up: costs `labour` x C + `other` with `probability`, else nothing. C is the unit's condition factor. */
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

const MOST_COMBINATIONS = 16;

function lumpOf(found: FoundRisk): Lump {
  const steady: Line[] = [];
  const lines: Line[] = [];
  for (const risk of found.labour) (risk.underCondition ? lines : steady).push(lineOf(risk));
  let otherChances: readonly Chance[] = [{ probability: 1, amount: found.parts }];
  for (const { outcomes } of found.sourcing ?? []) otherChances = combined(otherChances, outcomes);
  if (steady.length > 0) otherChances = combined(otherChances, twoPoint(sumOf(steady)));
  return {
    id: found.id,
    probability: found.probability,
    labour: sumOf(lines),
    lines,
    other: momentsOf(otherChances),
    otherChances,
  };
}

/** The sum of two independent amounts. */
function combined(a: readonly Chance[], b: readonly Chance[]): readonly Chance[] {
  if (b.length === 0) return a;
  if (a.length * b.length > MOST_COMBINATIONS) return twoPoint(sumOf([momentsOf(a), momentsOf(b)]));
  return a.flatMap((one) =>
    b.map((other) => ({ probability: one.probability * other.probability, amount: one.amount + other.amount })),
  );
}
