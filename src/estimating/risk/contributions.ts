/** What certainty about each uncertain thing would take off a percentile: the percentile less the same with that thing fixed at its expected cost. */
import type { Cluster, Lump } from "./cluster.js";
import type { Resolution } from "./convolution.js";
import { distributionOfTerms } from "./distribution.js";
import type { Line } from "./line.js";
import type { RiskModel } from "./model.js";
import { totalMoments } from "./moments.js";
import { type Draw, type Terms, termsOf } from "./terms.js";

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
/** Less than this share of the variance of all is not looked at by itself: known or not, it moves a percentile by about half its share of a standard deviation. */
const FELT = 0.01;

interface Uncertain {
  readonly source: RiskSource;
  readonly id: string;
  readonly variance: number;
  readonly is: Term;
}

const CONDITION = "condition";
type Term = Line | Draw | Lump | Cluster | typeof CONDITION;

/** Largest first. p: 0 to 1. */
export function contributionsTo(model: RiskModel, p: number): readonly Contribution[] {
  const terms = termsOf(model);
  const now = distributionOfTerms(terms, COARSE).quantile(p);
  const takesOff = (...known: readonly Term[]) => now - distributionOfTerms(atMeans(terms, new Set(known)), COARSE).quantile(p);
  const all = uncertain(terms).sort((a, b) => b.variance - a.variance);
  const felt = FELT * all.reduce((sum, { variance }) => sum + variance, 0);
  const wide = all.slice(0, ONE_BY_ONE).filter(({ variance }) => variance >= felt);
  const rest = all.slice(wide.length);
  const ofRest = rest.length === 0 ? 0 : takesOff(...rest.map(({ is }) => is));
  const restVariance = rest.reduce((sum, { variance }) => sum + variance, 0);
  return [
    ...wide.map((each) => ({ ...each, takesOff: takesOff(each.is) })),
    ...rest.map((each) => ({ ...each, takesOff: (ofRest * each.variance) / restVariance })),
  ]
    .flatMap(({ source, id, is, takesOff }): Contribution[] =>
      typeof is === "object" && "plan" in is ? sharedOut(is, takesOff) : [{ source, id, takesOff }],
    )
    .sort((a, b) => b.takesOff - a.takesOff);
}

/** What a cluster takes off, over what may turn up in it, by their variance. */
function sharedOut({ lumps }: Cluster, takesOff: number): Contribution[] {
  const variances = lumps.map((lump) => lumpVariance(lump));
  const sum = variances.reduce((total, variance) => total + variance, 0);
  return lumps.map(({ id }, at) => ({
    source: "if found",
    id,
    takesOff: sum > 0 ? (takesOff * variances[at]!) / sum : takesOff / lumps.length,
  }));
}

const lumpVariance = ({ probability: p, labour: l, other: q }: Lump): number =>
  p * (1 - p) * (l.mean + q.mean) ** 2 + p * (l.variance + q.variance);

/** The terms with what is `known` at its expected cost, for certain. */
function atMeans(terms: Terms, known: ReadonlySet<Term>): Terms {
  let { fixed, sure } = terms;
  const others = <T extends Term>(all: readonly T[], settle: (one: T) => void): readonly T[] =>
    all.filter((one) => {
      if (!known.has(one)) return true;
      settle(one);
      return false;
    });
  const lines = others(terms.lines, ({ mean }) => {
    sure += mean;
  });
  const toFixed = ({ mean }: Line | Draw) => {
    fixed += mean;
  };
  const [steady, draws] = [others(terms.steady, toFixed), others(terms.draws, toFixed)];
  const lumps = others(terms.lumps, ({ probability, labour, other }) => {
    sure += probability * labour.mean;
    fixed += probability * other.mean;
  });
  const clusters = others(terms.clusters, ({ labour, other }) => {
    sure += labour;
    fixed += other;
  });
  return known.has(CONDITION)
    ? { ...terms, cv: 0, sure: 0, fixed: fixed + sure, lines, steady, draws, lumps, clusters }
    : { ...terms, sure, fixed, lines, steady, draws, lumps, clusters };
}

function uncertain(terms: Terms): Uncertain[] {
  const square = terms.cv * terms.cv;
  const labour = totalMoments(terms).labourMean;
  const one = (source: RiskSource, is: Exclude<Term, string>, variance: number): Uncertain => ({
    source,
    id: is.id,
    variance,
    is,
  });
  const all = [
    ...terms.lines.map((line) => one("labour", line, (1 + square) * line.variance)),
    ...terms.steady.map((line) => one("labour", line, line.variance)),
    ...terms.draws.map((draw) => one("sourcing", draw, draw.variance)),
    ...terms.lumps.map((lump) => one("if found", lump, lumpVariance(lump))),
    ...terms.clusters.map((cluster) => one("if found", cluster, cluster.at(1).variance)),
  ];
  const condition: Uncertain = { source: "condition", id: CONDITION, variance: square * labour * labour, is: CONDITION };
  return square > 0 ? [...all, condition] : all;
}
