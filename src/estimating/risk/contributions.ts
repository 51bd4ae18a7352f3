/** What certainty about each uncertain thing would take off a percentile: the percentile less the same with that thing fixed at its expected cost. */

import type { Resolution } from "./convolution.js";
import { distributionOfTerms } from "./distribution.js";
import type { RiskModel } from "./model.js";
import { type Terms, termsOf } from "./terms.js";

export type RiskSource = "condition" | "labour" | "sourcing" | "if found";

export interface Contribution {
  readonly source: RiskSource;
  /** Id of the labour line, the bought part or the found group; 'condition' for the unit's condition. */
  readonly id: string;
  /** Minor units, not rounded. Below 0 where the expected cost weighs more than the chance: a rare fault hardly moves P80. */
  readonly takesOff: number;
}

/** Enough for differences: the same grid errs alike with and without. */
const COARSE: Resolution = { cells: 192, strata: 8 };
/** So many of the widest are looked at one by one; the rest together, and shared out by variance. */
const ONE_BY_ONE = 8;

interface Uncertain {
  readonly source: RiskSource;
  readonly id: string;
  readonly variance: number;
  readonly fix: (terms: Terms) => Terms;
}

/** Largest first. p: 0 to 1. */
export function contributionsTo(model: RiskModel, p: number): readonly Contribution[] {
  const terms = termsOf(model);
  const now = distributionOfTerms(terms, COARSE).quantile(p);
  const takesOff = (fixed: Terms) => now - distributionOfTerms(fixed, COARSE).quantile(p);
  const all = uncertain(terms).sort((a, b) => b.variance - a.variance);
  const [wide, rest] = [all.slice(0, ONE_BY_ONE), all.slice(ONE_BY_ONE)];
  const ofRest = rest.length === 0 ? 0 : takesOff(rest.reduce((fixed, each) => each.fix(fixed), terms));
  const restVariance = rest.reduce((sum, { variance }) => sum + variance, 0);
  return [
    ...wide.map(({ source, id, fix }) => ({ source, id, takesOff: takesOff(fix(terms)) })),
    ...rest.map(({ source, id, variance }) => ({ source, id, takesOff: (ofRest * variance) / restVariance })),
  ].sort((a, b) => b.takesOff - a.takesOff);
}

function uncertain(terms: Terms): Uncertain[] {
  const square = terms.cv * terms.cv;
  const labour = terms.sure + terms.lines.reduce((sum, line) => sum + line.mean, 0);
  const all: Uncertain[] = [
    ...terms.lines.map(
      (line): Uncertain => ({
        source: "labour",
        id: line.id,
        variance: (1 + square) * line.variance,
        fix: (of) => ({ ...of, lines: of.lines.filter((other) => other !== line), sure: of.sure + line.mean }),
      }),
    ),
    ...terms.steady.map(
      (line): Uncertain => ({
        source: "labour",
        id: line.id,
        variance: line.variance,
        fix: (of) => ({ ...of, steady: of.steady.filter((other) => other !== line), fixed: of.fixed + line.mean }),
      }),
    ),
    ...terms.draws.map(
      (draw): Uncertain => ({
        source: "sourcing",
        id: draw.id,
        variance: draw.variance,
        fix: (of) => ({ ...of, draws: of.draws.filter((other) => other !== draw), fixed: of.fixed + draw.mean }),
      }),
    ),
    ...terms.lumps.map((lump): Uncertain => {
      const { probability: p, labour: l, other: q } = lump;
      const cost = l.mean + q.mean;
      return {
        source: "if found",
        id: lump.id,
        variance: p * (1 - p) * cost * cost + p * (l.variance + q.variance),
        fix: (of) => ({
          ...of,
          lumps: of.lumps.filter((other) => other !== lump),
          sure: of.sure + p * l.mean,
          fixed: of.fixed + p * q.mean,
        }),
      };
    }),
  ];
  if (square > 0)
    all.push({
      source: "condition",
      id: "condition",
      variance: square * labour * labour,
      fix: (of) => ({ ...of, cv: 0, sure: 0, fixed: of.fixed + of.sure }),
    });
  return all;
}
