/**
 * A risk model as plain moments in money (minor units, not rounded): the total is C x (sure + lines) + fixed + steady
 * + draws + sum of B x (C x labour + other), C the condition factor, B one Bernoulli per lump. Probabilities 0 and 1, certain times and
 * single outcomes are folded away here, so that everything left is uncertain.
 */
import { type Moments, momentsOf } from "./cumulants.js";
import { type Line, lineOf } from "./line.js";
import { type Lump, lumpOf } from "./lump.js";
import type { Chance, RiskModel } from "./model.js";

/** What buying one part may come to, independent of the unit's condition. */
export interface Draw extends Moments {
  readonly id: string;
  readonly outcomes: readonly Chance[];
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
    if (variance > 0) draws.push({ id, outcomes, mean, variance, third });
    else fixed += mean;
  }
  const conditioned = sure > 0 || lines.length > 0 || lumps.some((lump) => lump.labour.mean > 0);
  return conditioned && model.conditionCv > 0
    ? { cv: model.conditionCv, fixed, sure, lines, steady, draws, lumps }
    : { cv: 0, fixed: fixed + sure, sure: 0, lines, steady, draws, lumps };
}
