/**
 * Which terms are so small beside the smooth spread of the total that only their first three cumulants can be felt.
 * The smooth spread is the condition factor's, plus that of the labour lines in the crowd themselves. Everything else is a 'loner'
 * and is convolved exactly: a mixture by cumulants alone is wrong for few big may-be-needed items.
 */

import { type Cluster, type Cost, foundMoments, type Lump } from "./cluster.js";
import { type Moments, sumOf, times } from "./cumulants.js";
import type { Line } from "./line.js";
import type { Draw, Terms } from "./terms.js";

interface Group {
  readonly lines: readonly Line[];
  readonly steady: readonly Line[];
  readonly lumps: readonly Lump[];
  readonly draws: readonly Draw[];
  readonly clusters: readonly Cluster[];
}

export interface Sorted {
  readonly crowd: Group;
  readonly loners: Group;
  /** Standard deviation of the smooth spread, in money. */
  readonly smooth: number;
}

/** A line joins the crowd when three of its standard deviations are within the smooth spread of the others: normal-with-skew then errs by less than the grid. */
const LINE_SDS = 3;
/** A step no wider than this share of the smooth spread leaves a ripple of exp(-2 pi^2), under 1e-8 of the density. */
const STEP_SHARE = 1;

/** `labourMean`: expected labour under condition, found labour included. */
export function sortTerms(terms: Terms, labourMean: number): Sorted {
  const condition = (terms.cv * labourMean) ** 2;
  const byWidth = [...terms.lines, ...terms.steady].sort((a, b) => a.variance - b.variance);
  let square = condition + byWidth.reduce((sum, line) => sum + line.variance, 0);
  while (byWidth.length > 0) {
    const { variance } = byWidth[byWidth.length - 1]!;
    if (LINE_SDS * LINE_SDS * variance <= square - variance) break;
    square = Math.max(condition, square - variance);
    byWidth.pop();
  }
  const joined = new Set(byWidth);
  const smooth = Math.sqrt(square);
  const [smallLumps, bigLumps] = divide(terms.lumps, (lump) => lumpStep(lump) <= STEP_SHARE * smooth);
  const [smallClusters, bigClusters] = divide(terms.clusters, (cluster) => clusterStep(cluster) <= STEP_SHARE * smooth);
  const [smallDraws, bigDraws] = divide(terms.draws, (draw) => drawStep(draw) <= STEP_SHARE * smooth);
  const [smallLines, bigLines] = divide(terms.lines, (line) => joined.has(line));
  const [smallSteady, bigSteady] = divide(terms.steady, (line) => joined.has(line));
  return {
    crowd: { lines: smallLines, steady: smallSteady, lumps: smallLumps, draws: smallDraws, clusters: smallClusters },
    loners: { lines: bigLines, steady: bigSteady, lumps: bigLumps, draws: bigDraws, clusters: bigClusters },
    smooth,
  };
}

/** What a lump costs when it is found, on the high side. */
export const lumpStep = ({ labour, other }: Cost): number =>
  labour.mean + other.mean + 2 * Math.sqrt(labour.variance + other.variance);

/** All of it, on the high side. */
const clusterStep = ({ lumps, shared, beyond = [0] }: Cluster): number =>
  [...lumps, ...shared].reduce((sum, cost) => sum + Math.abs(lumpStep(cost)), Math.max(...beyond) - Math.min(...beyond));

/** The dearest that one lump brings about, with all it needs. */
export const dearestStep = ({ lumps, shared }: Cluster): number =>
  Math.max(
    ...lumps.map((lump) => shared.reduce((sum, one) => sum + (one.members.has(lump) ? lumpStep(one) : 0), lumpStep(lump))),
  );

function drawStep({ outcomes }: Draw): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { amount, probability } of outcomes) {
    if (probability <= 0) continue;
    low = Math.min(low, amount);
    high = Math.max(high, amount);
  }
  return high - low;
}

function divide<T>(all: readonly T[], small: (one: T) => boolean): [T[], T[]] {
  const [yes, no]: [T[], T[]] = [[], []];
  for (const one of all) (small(one) ? yes : no).push(one);
  return [yes, no];
}

/** Cumulants of the crowd and of the certain labour, for any condition factor c: each a cubic in c, so its values at c = 0, 1, 2, 3 tell all. */
export function crowdMoments(sure: number, { lines, steady, lumps, draws, clusters }: Group): (c: number) => Moments {
  const labour = sumOf(lines);
  const unmoved = sumOf([...steady, ...draws]);
  const at = [0, 1, 2, 3].map((c) => {
    const found = sumOf([foundMoments(lumps, c), ...clusters.map((cluster) => cluster.at(c))]);
    const { mean, variance, third } = sumOf([times(labour, c), unmoved, found]);
    return { mean: mean + c * sure, variance, third };
  });
  return (c) => {
    const weights = [
      -((c - 1) * (c - 2) * (c - 3)) / 6,
      (c * (c - 2) * (c - 3)) / 2,
      -(c * (c - 1) * (c - 3)) / 2,
      (c * (c - 1) * (c - 2)) / 6,
    ];
    const cubic = (of: keyof Moments) => weights.reduce((sum, weight, node) => sum + weight * at[node]![of], 0);
    return { mean: cubic("mean"), variance: Math.max(0, cubic("variance")), third: cubic("third") };
  };
}
