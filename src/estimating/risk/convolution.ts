/**
 * The distribution of an uncertain total on a lattice, no random numbers: per stratum of the condition factor the crowd by cumulants, the loners exactly;
 * each stratum slid over its width; then the loners that the condition does not touch. The certain part of the total is 0 here; the caller adds it.
 */

import { type Algebra, type Cost, foundMoments, type Lump, summed } from "./cluster.js";
import { conditionAt, conditionSigma, conditionStrata, STRATA_REACH } from "./condition.js";
import { crowdMoments, dearestStep, lumpStep, type Sorted, sortTerms } from "./crowd.js";
import { convolve, convolveIfFound, type Masses, mixed, scaled, splitOnto } from "./lattice.js";
import { UNFELT } from "./line.js";
import { foundMasses, lineMasses, sumOfLines } from "./lineMasses.js";
import { type TotalMoments, totalMoments } from "./moments.js";
import { smallManyMasses } from "./smallMany.js";
import { labourBehind, layDown, type Slide } from "./spread.js";
import type { Terms } from "./terms.js";

/** How fine: cells of the lattice and strata of the condition factor. */
export interface Resolution {
  readonly cells: number;
  readonly strata: number;
}

/** Masses at index x h. Their sum is below 1 by what lies above the lattice. */
export interface OnLattice extends Masses {
  readonly h: number;
}

/** Standard deviations from the mean that the lattice reaches; above it also reaches the dearest single fault. */
const REACH = 6;
/** A percentile nearer than this many cells to the least total is looked at again on a lattice that ends just above it (a rare, dear fault; a short job with a large risk). */
const NEAR = 48;
const LOOKED_AT = [0.99, 0.95, 0.8, 0.5];
const LOOKED_AT_FINELY = [...LOOKED_AT, 0.1];

/** So much of an amount may slide below the top of a lattice from above it, where nothing is: a dent, unless the lattice goes on so far beyond what is read of it. */
const SLID = 0.35;

function upTo(high: number, { from, mass, h }: OnLattice): OnLattice {
  return { from, mass: mass.subarray(0, Math.max(1, Math.floor(high / h) - from + 1)), h };
}

/** What is convolved per stratum (`early`), and what after them because the condition does not touch it. */
interface Plan {
  readonly early: Terms;
  readonly sorted: Sorted;
  readonly late: Pick<Terms, "steady" | "draws" | "lumps">;
}

/** The whole range first; then, where needed, its lower end again and finer. */
export function convolveTotal(terms: Terms, total: TotalMoments, resolution: Resolution): readonly OnLattice[] {
  const plan = planOf(terms, total.labourMean);
  const early = totalMoments(plan.early);
  const lowEarly = Math.max(lowestLabour(plan.early), early.mean - REACH * Math.sqrt(early.variance));
  const low = lowEarly + lowestLate(plan.late);
  const above = Math.max(
    REACH * Math.sqrt(total.variance),
    ...[...terms.lumps.map(lumpStep), ...terms.clusters.map(dearestStep)].map((step) => step * (1 + 3 * terms.cv)),
  );
  const lattices = [onLattice(plan, low, total.mean + above, resolution)];
  for (const p of terms.fine ? LOOKED_AT_FINELY : LOOKED_AT) {
    const { h, ...masses } = lattices[lattices.length - 1]!;
    const reached = indexReaching(masses, p) * h - low;
    if (reached < NEAR * h && h > UNFELT) {
      const high = low + 1.25 * Math.max(reached, h);
      lattices.push(
        terms.fine ? upTo(high, onLattice(plan, low, (1 + SLID) * high, resolution)) : onLattice(plan, low, high, resolution),
      );
    }
  }
  return lattices;
}

function planOf(terms: Terms, labourMean: number): Plan {
  const sorted = sortTerms(terms, terms.fine && oftenNothing(terms) ? plannedLabour(terms) : labourMean);
  const { crowd, loners } = sorted;
  const feelsIt = loners.lumps.filter((lump) => lump.labour.mean > 0);
  return {
    early: { ...terms, steady: crowd.steady, draws: crowd.draws, lumps: [...crowd.lumps, ...feelsIt] },
    sorted: { ...sorted, loners: { ...loners, lumps: feelsIt } },
    late: { steady: loners.steady, draws: loners.draws, lumps: loners.lumps.filter((lump) => lump.labour.mean <= 0) },
  };
}

const plannedLabour = ({ sure, lines }: Terms): number => lines.reduce((sum, { mean }) => sum + mean, sure);

/** Jobs in which nothing turns up are a percentile's worth, and spread as planned work alone does. */
function oftenNothing({ lumps, clusters }: Terms): boolean {
  const all = [...lumps, ...clusters.flatMap((cluster) => cluster.lumps)];
  return all.reduce((chance, { probability }) => chance * (1 - probability), 1) > 0.02;
}

function lowestLabour({ cv, sure, lines }: Terms): number {
  const factor = cv > 0 ? conditionAt(-STRATA_REACH, conditionSigma(cv)) : 1;
  return factor * lines.reduce((sum, line) => sum + line.low, sure);
}

const lowestLate = ({ steady }: Plan["late"]): number => steady.reduce((sum, line) => sum + line.low, 0);

function onLattice({ early, sorted, late }: Plan, low: number, high: number, { cells, strata }: Resolution): OnLattice {
  const h = (high - low) / cells;
  const top = Math.ceil(high / h) + 1;
  const topEarly = Math.ceil((high - lowestLate(late)) / h) + 1;
  const crowdAt = crowdMoments(early.sure, sorted.crowd);
  const parts = conditionStrata(early.cv, strataFor(early, strata));
  const leastFactor = parts[0]!.mean;
  const lines = sumOfLines(sorted.loners.lines, h, Math.ceil(topEarly / leastFactor));
  const lumps = sorted.loners.lumps.map((lump) => ({
    ...lump,
    cost: foundMasses(lump, sorted.smooth, h, topEarly, leastFactor),
  }));
  const clusters = sorted.loners.clusters.map((cluster) => ({
    cluster,
    costs: new Map<Cost, (c: number) => Masses>(
      [...cluster.lumps, ...cluster.shared].map((cost) => [cost, foundMasses(cost, sorted.smooth, h, topEarly, leastFactor)]),
    ),
  }));
  const labourAt = labourBehind(early, h);
  const slides = parts.map((stratum): Slide => {
    const c = stratum.mean;
    let masses = smallManyMasses(crowdAt(c), h, topEarly);
    if (lines !== undefined) masses = convolve(masses, scaled(lines, c, topEarly), topEarly);
    for (const { probability, cost } of lumps) masses = convolveIfFound(masses, cost(c), probability, topEarly);
    for (const { cluster, costs } of clusters)
      masses = convolve(masses, summed(cluster, onLatticeOf(c, costs, sorted.smooth, h, topEarly)), topEarly);
    return { stratum, masses, labour: labourAt(c) };
  });
  let masses = layDown(slides, topEarly);
  for (const line of late.steady) masses = convolve(masses, lineMasses(line, h, top), top);
  for (const { probability, otherChances } of late.lumps)
    masses = convolveIfFound(masses, splitOnto(otherChances, h, top), probability, top);
  for (const { outcomes } of late.draws) masses = convolve(masses, splitOnto(outcomes, h, top), top);
  return { ...masses, h };
}

/** More small lumps than this are summed up by their cumulants, as the crowd is. */
const FEW = 3;

/** Masses at condition factor c. `costs` by what they are of. */
function onLatticeOf(
  c: number,
  costs: ReadonlyMap<Cost, (c: number) => Masses>,
  smooth: number,
  h: number,
  top: number,
): Algebra<Masses> {
  const nothing: Masses = { from: 0, mass: Float64Array.of(1) };
  const cost = (of: Cost): Masses => costs.get(of)?.(c) ?? foundMasses(of, smooth, h, top, c)(c);
  return {
    nothing,
    amount: (amount) => splitOnto([{ probability: 1, amount }], h, top),
    both: (a, b) => convolve(a, b, top),
    mix: mixed,
    cost,
    found: (lumps) => {
      const small = lumps.filter((lump) => lumpStep(lump) <= smooth);
      const crowd: readonly Lump[] = small.length > FEW ? small : [];
      const start = crowd.length > 0 ? smallManyMasses(foundMoments(crowd, c), h, top) : nothing;
      const loners = crowd.length > 0 ? lumps.filter((lump) => lumpStep(lump) > smooth) : lumps;
      return loners.reduce((sum, lump) => convolveIfFound(sum, cost(lump), lump.probability, top), start);
    },
  };
}

/** Of more sets than these the strata stay as wide as they are. */
const MOST_NARROW = 16;

/** Where a set costs other than the sum of its parts, its labour cannot be told from the total: the strata must be narrow instead. */
const strataFor = ({ clusters }: Terms, strata: number): number =>
  strata * (clusters.some(({ beyond }) => beyond !== undefined && beyond.length <= MOST_NARROW) ? 3 : 1);

/** First index at which the masses up to it reach p. */
function indexReaching({ from, mass }: Masses, p: number): number {
  let sum = 0;
  for (let i = 0; i < mass.length; i++) {
    sum += mass[i]!;
    if (sum >= p) return from + i;
  }
  return from + mass.length;
}
