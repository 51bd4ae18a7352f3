/**
 * A risk model as plain moments in money (minor units, not rounded): the total is C x (sure + lines) + fixed + steady
 * + draws + sum of B x (C x labour + other) + clusters, C the condition factor, B one Bernoulli per lump. Probabilities of 0 and 1, certain times and
 * single outcomes are folded away here, so that everything left is uncertain.
 */
import { type Cluster, type Cost, clusterOf, type Lump, type Shared } from "./cluster.js";
import { type Moments, momentsOf, sumOf, twoPoint } from "./cumulants.js";
import { type Line, lineOf, UNFELT } from "./line.js";
import type { Chance, FoundRisk, RiskModel, SharedRisk } from "./model.js";

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
  /** Lumps that have something to pay together. */
  readonly clusters: readonly Cluster[];
  /** Without the dents that books had; see convolution.ts. */
  readonly fine: boolean;
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
  const possible: Possible[] = [];
  const paid = new Set<string>();
  let fixed = model.fixed;
  let sets = model.beyond;
  for (const found of model.ifFound) {
    if (found.probability >= 1 - NEVER) {
      planned.push(...found.labour);
      sourcing.push(...(found.sourcing ?? []));
      fixed += found.parts;
      for (const id of found.needs ?? []) paid.add(id);
      // Of sets, only those that hold it are left.
      sets = sets?.filter((_, set) => (set >> possible.length) & 1);
    } else if (found.probability > NEVER) possible.push({ found, lump: lumpOf(found) });
    else sets = sets?.filter((_, set) => !((set >> possible.length) & 1));
  }
  const shared = new Map(model.shared?.map((each) => [each.id, each]));
  for (const id of paid) {
    const { labour, amount } = shared.get(id)!;
    planned.push(...labour);
    fixed += amount;
    shared.delete(id);
  }
  const fine = model.shared !== undefined;
  const { lumps, clusters, least } = grouped(possible, shared, sets);
  fixed += least;
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
  const inClusters = clusters.reduce((sum, cluster) => sum + cluster.labour, 0);
  return model.conditionCv * (labour + inClusters) > UNFELT
    ? { cv: model.conditionCv, fixed, sure, lines, steady, draws, lumps, clusters, fine }
    : { cv: 0, fixed: fixed + sure, sure: 0, lines, steady, draws, lumps, clusters, fine };
}

interface Possible {
  readonly found: FoundRisk;
  readonly lump: Lump;
}

/** Lumps by themselves, and those that share something. `least`: what clusters come to at least, where that is below 0; it is added to what is certain. */
function grouped(possible: readonly Possible[], shared: ReadonlyMap<string, SharedRisk>, sets?: readonly number[]) {
  const members = new Map<string, Lump[]>();
  for (const { found, lump } of possible)
    for (const id of found.needs ?? []) {
      const same = members.get(id);
      if (same) same.push(lump);
      else if (shared.has(id)) members.set(id, [lump]);
    }
  /** What the same lumps need is paid as one. */
  const bySet = new Map<string, { readonly lumps: readonly Lump[]; readonly risks: SharedRisk[] }>();
  const place = new Map(possible.map(({ lump }, at) => [lump, at]));
  for (const [id, lumps] of members) {
    const key = lumps.map((lump) => place.get(lump)).join();
    const one = bySet.get(key) ?? { lumps, risks: [] };
    one.risks.push(shared.get(id)!);
    bySet.set(key, one);
  }
  const all = [...bySet.values()].map(({ lumps, risks }): Shared => {
    const amount = risks.reduce((sum, risk) => sum + risk.amount, 0);
    const labour = risks.flatMap((risk) => risk.labour);
    return { ...costOf({ labour, parts: amount }), members: new Set(lumps) };
  });
  const felt = (each: Lump | Shared) => Math.abs(each.labour.mean) + Math.abs(each.other.mean) > 0;
  const units = all.filter(felt);
  const clusters: Cluster[] = [];
  let least = 0;
  const together = (lumps: readonly Lump[], beyond?: readonly number[]) => {
    const held = units.filter((unit) => lumps.some((lump) => unit.members.has(lump)));
    const below = beyond
      ? leastSet(lumps, held, beyond)
      : [...lumps, ...held].reduce((sum, one) => sum + Math.min(0, one.otherLeast), 0);
    const cluster = clusterOf({ id: lumps[0]!.id, lumps, shared: held, ...(beyond && { beyond }), base: 0 - below });
    least += below;
    if (cluster.at(1).variance > 0 || cluster.at(1).mean > 0) clusters.push(cluster);
  };
  if (sets?.some((amount) => amount !== 0)) {
    together(
      possible.map(({ lump }) => lump),
      sets,
    );
    return { lumps: [], clusters, least };
  }
  const lumps: Lump[] = [];
  const done = new Set<Lump>();
  for (const { lump } of possible) {
    if (done.has(lump)) continue;
    const family = [lump];
    done.add(lump);
    for (const one of family)
      for (const unit of units)
        if (unit.members.has(one))
          for (const other of unit.members)
            if (!done.has(other)) {
              done.add(other);
              family.push(other);
            }
    if (family.length > 1 || units.some(({ members }) => members.has(lump)) || lump.otherLeast < 0)
      together(family.sort((a, b) => place.get(a)! - place.get(b)!));
    else if (felt(lump)) lumps.push(lump);
  }
  return { lumps, clusters, least };
}

/** The least that any set of lumps comes to without its labour under condition; 0 where none is below it. */
function leastSet(lumps: readonly Lump[], shared: readonly Shared[], beyond: readonly number[]): number {
  let least = 0;
  beyond.forEach((amount, set) => {
    const inSet = lumps.filter((_, at) => (set >> at) & 1);
    const paid = shared.filter(({ members }) => inSet.some((lump) => members.has(lump)));
    least = Math.min(
      least,
      [...inSet, ...paid].reduce((sum, one) => sum + one.otherLeast, amount),
    );
  });
  return least;
}

const leastOf = (outcomes: readonly Chance[]): number =>
  outcomes.reduce(
    (least, { probability, amount }) => (probability > 0 ? Math.min(least, amount) : least),
    Number.POSITIVE_INFINITY,
  );

const MOST_COMBINATIONS = 16;

const lumpOf = (found: FoundRisk): Lump => ({ id: found.id, probability: found.probability, ...costOf(found) });

function costOf(found: Pick<FoundRisk, "labour" | "parts" | "sourcing">): Cost {
  const steady: Line[] = [];
  const lines: Line[] = [];
  for (const risk of found.labour) (risk.underCondition ? lines : steady).push(lineOf(risk));
  let otherChances: readonly Chance[] = [{ probability: 1, amount: found.parts }];
  for (const { outcomes } of found.sourcing ?? []) otherChances = combined(otherChances, outcomes);
  if (steady.length > 0) otherChances = combined(otherChances, twoPoint(sumOf(steady)));
  return {
    labour: sumOf(lines),
    lines,
    other: momentsOf(otherChances),
    otherChances,
    otherLeast: leastOf(otherChances),
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
