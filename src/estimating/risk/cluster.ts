/**
 * Possible work that shares what it needs: a place or a set-up is paid once when at least one of those that need it turns up. Nested places are worked out up
 * the tree, overlapping ones by the two cases that one of them is needed or not; both exactly. The same steps serve masses on the lattice, lists of amounts and moments.
 */
import { ifFound, type Moments, sumOf, times } from "./cumulants.js";
import type { Line } from "./line.js";
import type { Chance } from "./model.js";

/** What comes to `labour` x C + `other`. C is the unit's condition factor. */
export interface Cost {
  /** Under condition. */
  readonly labour: Moments;
  readonly lines: readonly Line[];
  /** Parts, and labour the condition does not touch. */
  readonly other: Moments;
  /** The same as few amounts: exact for up to 16 combinations of outcomes, else with the same three moments. */
  readonly otherChances: readonly Chance[];
  /** The least of them. */
  readonly otherLeast: number;
}

/** What may turn up: costs so much with `probability`, else nothing. */
export interface Lump extends Cost {
  readonly id: string;
  readonly probability: number;
}

/** What is summed up: the total of independent amounts, and one of two. */
export interface Algebra<M> {
  /** 0, for certain. */
  readonly nothing: M;
  readonly amount: (amount: number) => M;
  readonly both: (a: M, b: M) => M;
  /** a x weight + b x weight; a weight may be negative. */
  readonly mix: (a: M, weightOfA: number, b: M, weightOfB: number) => M;
  readonly cost: (cost: Cost) => M;
  /** The sum of what turns up of these, each by itself. */
  readonly found: (lumps: readonly Lump[]) => M;
}

/** Paid once when one of `members` turns up. */
export interface Shared extends Cost {
  readonly members: ReadonlySet<Lump>;
}

/** What turns up of `lumps`, and of each branch. */
interface Plan {
  readonly lumps: readonly Lump[];
  readonly branches: readonly Branch[];
}

/** `all` where `shared` is paid; with chance `none` no member of it turns up, and then it is `rest` without it. */
interface Branch {
  readonly shared: Cost;
  readonly none: number;
  readonly all: Plan;
  readonly rest: Plan;
}

const NOTHING: Plan = { lumps: [], branches: [] };
/** So many overlapping places are exact, one inside the other; beyond, a place is paid once by each part of its members: too much, never too little. */
const MOST_OVERLAPS = 4;

export interface Cluster {
  readonly id: string;
  readonly lumps: readonly Lump[];
  readonly shared: readonly Shared[];
  /** By the set of lumps that turn up, as bits: what it comes to beyond their sum (billing steps, least charge). */
  readonly beyond?: readonly number[];
  /** Added whatever turns up: no set comes to less than 0. */
  readonly base: number;
  readonly plan: Plan;
  /** false: some place is paid more than once in the reckoning. */
  readonly exact: boolean;
  /** At condition factor c: cumulants, each a polynomial of its own degree in c. */
  readonly at: (c: number) => Moments;
  /** Expected labour under condition, and the rest. */
  readonly labour: number;
  readonly other: number;
  /** Variance at c: labour x c^2 + 2 both x c + other. */
  readonly variance: { readonly labour: number; readonly both: number; readonly other: number };
}

export function clusterOf({
  id,
  lumps,
  shared,
  beyond,
  base,
}: Pick<Cluster, "id" | "lumps" | "shared" | "beyond" | "base">): Cluster {
  let exact = true;
  const plan = beyond
    ? NOTHING
    : planOf(lumps, shared, MOST_OVERLAPS, () => {
        exact = false;
      });
  const parts = { id, lumps, shared, ...(beyond && { beyond }), base, plan, exact };
  const known = new Map<number, Moments>();
  const at = (c: number) => {
    const moments = known.get(c) ?? cumulantsOf(summed(parts, rawMoments(c)));
    known.set(c, moments);
    return moments;
  };
  const [none, one, two] = [at(0), at(1), at(2)];
  const square = (two.variance - 2 * one.variance + none.variance) / 2;
  return {
    ...parts,
    at,
    labour: one.mean - none.mean,
    other: none.mean,
    variance: { labour: square, both: (one.variance - none.variance - square) / 2, other: none.variance },
  };
}

function planOf(lumps: readonly Lump[], shared: readonly Shared[], overlaps: number, tooMany: () => void): Plan {
  const alive = new Set(lumps);
  const left = shared.flatMap((each): Shared[] => {
    const members = new Set([...each.members].filter((lump) => alive.has(lump)));
    return members.size > 0 ? [{ ...each, members }] : [];
  });
  const branches: Branch[] = [];
  const free = new Set(lumps);
  for (const family of families(left)) {
    const members = new Set(family.flatMap((each) => [...each.members]));
    for (const lump of members) free.delete(lump);
    branches.push(...branchesOf([...members], family, overlaps, tooMany));
  }
  return { lumps: [...free], branches };
}

function branchesOf(lumps: readonly Lump[], family: readonly Shared[], overlaps: number, tooMany: () => void): readonly Branch[] {
  const root = family.find(({ members }) => members.size === lumps.length);
  if (!root && overlaps === 0) {
    tooMany();
    return planOf(lumps, parted(family), 0, tooMany).branches;
  }
  const chosen = root ?? mostOverlapping(family);
  const others = family.filter((each) => each !== chosen);
  const deeper = root ? overlaps : overlaps - 1;
  return [
    {
      shared: chosen,
      none: [...chosen.members].reduce((chance, { probability }) => chance * (1 - probability), 1),
      all: planOf(lumps, others, deeper, tooMany),
      rest: root
        ? NOTHING
        : planOf(
            lumps.filter((lump) => !chosen.members.has(lump)),
            others,
            deeper,
            tooMany,
          ),
    },
  ];
}

/** Those that have a member in common, directly or by others. */
function families(shared: readonly Shared[]): Shared[][] {
  let made: { all: Shared[]; members: Set<Lump> }[] = [];
  for (const each of shared) {
    const touching = made.filter(({ members }) => [...each.members].some((lump) => members.has(lump)));
    const all = [...touching.flatMap((one) => one.all), each];
    const members = new Set(all.flatMap((one) => [...one.members]));
    made = [...made.filter((one) => !touching.includes(one)), { all, members }];
  }
  return made.map(({ all }) => all);
}

const within = (a: Shared, b: Shared): boolean => [...a.members].every((lump) => b.members.has(lump));
const overlap = (a: Shared, b: Shared): boolean =>
  a !== b && !within(a, b) && !within(b, a) && [...a.members].some((lump) => b.members.has(lump));

function mostOverlapping(family: readonly Shared[]): Shared {
  const count = (one: Shared) => family.filter((other) => overlap(one, other)).length;
  return family.map((each) => ({ each, count: count(each) })).reduce((a, b) => (b.count > a.count ? b : a)).each;
}

/** The first that overlaps another is taken apart along it. */
function parted(family: readonly Shared[]): readonly Shared[] {
  const one = family.find((each) => family.some((other) => overlap(each, other)))!;
  const other = family.find((each) => overlap(one, each))!;
  const part = (inside: boolean): Shared => ({
    ...one,
    members: new Set([...one.members].filter((lump) => other.members.has(lump) === inside)),
  });
  return [...family.filter((each) => each !== one), part(true), part(false)];
}

/** What a cluster comes to. */
export function summed<M>(cluster: Pick<Cluster, "lumps" | "shared" | "beyond" | "base" | "plan">, algebra: Algebra<M>): M {
  const all = cluster.beyond ? bySets(cluster, cluster.beyond, algebra) : byPlan(cluster.plan, algebra);
  return cluster.base === 0 ? all : algebra.both(all, algebra.amount(cluster.base));
}

function byPlan<M>({ lumps, branches }: Plan, algebra: Algebra<M>): M {
  let all = lumps.length > 0 || branches.length === 0 ? algebra.found(lumps) : undefined;
  for (const { shared, none, all: within, rest } of branches) {
    const without = byPlan(rest, algebra);
    const opened = algebra.both(algebra.mix(byPlan(within, algebra), 1, without, -none), algebra.cost(shared));
    const either = algebra.mix(opened, 1, without, none);
    all = all === undefined ? either : algebra.both(all, either);
  }
  return all!;
}

function bySets<M>({ lumps, shared }: Pick<Cluster, "lumps" | "shared">, beyond: readonly number[], algebra: Algebra<M>): M {
  const costs = new Map<Cost, M>([...lumps, ...shared].map((each) => [each, algebra.cost(each)]));
  let all: M | undefined;
  const visit = (at: number, set: number, chance: number, sum: M, paid: ReadonlySet<Shared>): void => {
    const lump = lumps[at];
    if (lump === undefined) {
      const leaf = beyond[set]! === 0 ? sum : algebra.both(sum, algebra.amount(beyond[set]!));
      all = all === undefined ? algebra.mix(leaf, chance, leaf, 0) : algebra.mix(all, 1, leaf, chance);
      return;
    }
    visit(at + 1, set, chance * (1 - lump.probability), sum, paid);
    const opens = shared.filter((each) => each.members.has(lump) && !paid.has(each));
    const more = [lump, ...opens].reduce((total, cost) => algebra.both(total, costs.get(cost)!), sum);
    visit(at + 1, set | (1 << at), chance * lump.probability, more, new Set([...paid, ...opens]));
  };
  visit(0, 0, 1, algebra.nothing, new Set());
  return all!;
}

/** Mass, and mean of the amount, its square and its cube, times the mass. */
type Raw = readonly [number, number, number, number];

function rawMoments(c: number): Algebra<Raw> {
  const both = ([a0, a1, a2, a3]: Raw, [b0, b1, b2, b3]: Raw): Raw => [
    a0 * b0,
    a0 * b1 + a1 * b0,
    a0 * b2 + 2 * a1 * b1 + a2 * b0,
    a0 * b3 + 3 * a1 * b2 + 3 * a2 * b1 + a3 * b0,
  ];
  const raw = ({ mean, variance, third }: Moments): Raw => [
    1,
    mean,
    variance + mean * mean,
    third + 3 * mean * variance + mean ** 3,
  ];
  return {
    nothing: [1, 0, 0, 0],
    amount: (amount) => raw({ mean: amount, variance: 0, third: 0 }),
    both,
    mix: (a, x, b, y) => [a[0] * x + b[0] * y, a[1] * x + b[1] * y, a[2] * x + b[2] * y, a[3] * x + b[3] * y],
    cost: (cost) => raw(momentsAt(cost, c)),
    found: (lumps) => raw(foundMoments(lumps, c)),
  };
}

const momentsAt = ({ labour, other }: Cost, c: number): Moments => sumOf([times(labour, c), other]);

/** Of what turns up of these, each by itself, at condition factor c. */
export const foundMoments = (lumps: readonly Lump[], c: number): Moments =>
  sumOf(lumps.map((lump) => ifFound(momentsAt(lump, c), lump.probability)));

function cumulantsOf([, m1, m2, m3]: Raw): Moments {
  const variance = Math.max(0, m2 - m1 * m1);
  return { mean: m1, variance, third: m3 - 3 * m1 * m2 + 2 * m1 ** 3 };
}
