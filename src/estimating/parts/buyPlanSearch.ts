/**
 * The cheapest mix of takes that reaches a chance: depth first over the offers, the last one by bisection. A branch is left when even the best it could still
 * do falls short, or when the least it must still spend makes it no cheaper than what is known. From there, where asked, to the least spent on average.
 */
import type { Minor } from "../input.js";
import { expectedAt } from "./buyPlanOutcomes.js";
import type { Choice, Choices, PlanAsk, Take } from "./buyPlanTakes.js";
import { goodMasses, isSure, none, reaches, SAME_CHANCE, tailsOf, together } from "./shareGood.js";

export interface Found {
  /** Per choice, the index of its take. */
  readonly takes: readonly number[];
  /** false: the search gave up before every mix that could be cheaper was weighed. */
  readonly exact: boolean;
}

/** Multiplications spent before the search settles for what it has. */
const MOST_WORK = 5_000_000;

/** level 'best': the best chance that everything on offer can give. undefined: out of reach. */
export function cheapestTakes(
  all: Choices,
  level: number | "best",
  { least, effort = 1 }: Pick<PlanAsk, "least" | "effort"> = {},
): Found | undefined {
  const found = leastSpent(all, level, effort * MOST_WORK);
  return found && least ? leastExpected(all, level, found, effort * MOST_EXPECTED_WORK) : found;
}

function leastSpent({ choices, goal, lot }: Choices, level: number | "best", most: number): Found | undefined {
  const order = choices
    .map((choice, index) => ({ ...choice, index }))
    .sort((a, b) => a.takes.length - b.takes.length || a.index - b.index);
  const rest = restOf(order, goal, lot);
  const target = (level === "best" ? rest[0]!.everything[goal]! : level) - SAME_CHANCE;
  if (rest[0]!.everything[goal]! < target) return undefined;

  const current = order.map(() => 0);
  let best: { readonly takes: readonly number[]; readonly spend: Minor; readonly chance: number } | undefined;
  let work = 0;
  const keepIfBetter = (spend: Minor, chance: number) => {
    if (best !== undefined && (spend > best.spend || (spend === best.spend && chance <= best.chance + SAME_CHANCE))) return;
    best = { takes: [...current], spend, chance };
  };

  const visit = (depth: number, masses: Float64Array, spend: Minor, paid: ReadonlyMap<string, Minor>): void => {
    work += (goal + 5) ** 2;
    if (masses[goal]! >= target) {
      keepIfBetter(spend, masses[goal]!);
      return;
    }
    if (depth === order.length || work > most) return;
    const after = rest[depth]!;
    if (reaches(masses, after.everythingTails) < target) return;
    if (best !== undefined && spend + after.leastSpend(masses, target) > best.spend + 1e-6) return;
    const { takes, offer } = order[depth]!;
    const freight = Math.max(0, (offer.freight ?? 0) - (paid.get(offer.source) ?? 0));
    const costOf = (take: Take) => spend + take.spend + (take.pieces > 0 ? freight : 0);
    const first = leastTake(takes, masses, target);
    if (first !== undefined) {
      current[depth] = first;
      keepIfBetter(costOf(takes[first]!), reaches(masses, takes[first]!.tails()));
      current[depth] = 0;
    }
    if (depth === order.length - 1) return;
    const withIt = new Map(paid).set(offer.source, Math.max(paid.get(offer.source) ?? 0, offer.freight ?? 0));
    // From `first` on it is enough by itself; anything beside it would only cost more.
    for (let index = 0; index < (first ?? takes.length); index++) {
      const take = takes[index]!;
      const cost = costOf(take);
      if (work > most || (best !== undefined && cost > best.spend)) break;
      current[depth] = index;
      if (index === 0) visit(depth + 1, masses, spend, paid);
      else visit(depth + 1, together(masses, take.masses()), cost, withIt);
    }
    current[depth] = 0;
  };
  visit(0, none(goal), 0, new Map());
  if (work > most) {
    const lean = leanest(order, goal, target);
    lean.takes.forEach((take, depth) => {
      current[depth] = take;
    });
    keepIfBetter(spendOf(order, lean.takes), lean.chance);
  }
  if (best === undefined) return undefined;
  const byIndex = choices.map(() => 0);
  for (let depth = 0; depth < order.length; depth++) byIndex[order[depth]!.index] = best.takes[depth]!;
  return { takes: byIndex, exact: work <= most && lot === 1 };
}

/** Multiplications spent on a cheaper average; then single packs more and less are tried on the best so far. */
const MOST_EXPECTED_WORK = 2_000_000;

/** From the mix that spends least at once to the one that spends least on average. No mix whose spend at once is above the best average can be it. */
function leastExpected({ choices, goal, lot }: Choices, level: number | "best", start: Found, most: number): Found {
  const rest = restOf(choices, goal, lot);
  const target = (level === "best" ? rest[0]!.everything[goal]! : level) - SAME_CHANCE;
  const current = choices.map(() => 0);
  let work = 0;
  const massesOf = (takes: readonly number[]) =>
    choices.reduce((sum, choice, at) => (takes[at] === 0 ? sum : together(sum, choice.takes[takes[at]!]!.masses())), none(goal));
  const expected = (takes: readonly number[], masses: Float64Array, spend: Minor) => {
    work += goal * (choices.length + 2) + 20;
    return expectedAt(
      masses,
      choices.map((choice, at) => ({ choice, take: choice.takes[takes[at]!]! })),
      lot,
      spend,
    );
  };
  const first = spendOf(choices, start.takes);
  let best = { takes: start.takes, spend: first, cost: expected(start.takes, massesOf(start.takes), first) };
  const weigh = (takes: readonly number[], masses: Float64Array, spend: Minor): boolean => {
    if (masses[goal]! < target || spend > best.cost + SAME_COST) return false;
    const cost = expected(takes, masses, spend);
    if (cost > best.cost - SAME_COST && (cost > best.cost + SAME_COST || spend >= best.spend)) return false;
    best = { takes: [...takes], spend, cost };
    return true;
  };
  const visit = (depth: number, masses: Float64Array, spend: Minor, paid: ReadonlyMap<string, Minor>): void => {
    if (depth === choices.length) weigh(current, masses, spend);
    if (depth === choices.length || work > most) return;
    const after = rest[depth]!;
    work += (goal + 5) ** 2;
    if (reaches(masses, after.everythingTails) < target) return;
    if (masses[goal]! < target && spend + after.leastSpend(masses, target) > best.cost + SAME_COST) return;
    const { takes, offer } = choices[depth]!;
    const freight = Math.max(0, (offer.freight ?? 0) - (paid.get(offer.source) ?? 0));
    const withIt = new Map(paid).set(offer.source, Math.max(paid.get(offer.source) ?? 0, offer.freight ?? 0));
    for (let index = 0; index < takes.length; index++) {
      const take = takes[index]!;
      const cost = index === 0 ? spend : spend + take.spend + freight;
      if (cost > best.cost + SAME_COST || work > most) break;
      current[depth] = index;
      if (index === 0) visit(depth + 1, masses, cost, paid);
      else if (depth + 1 < choices.length || reaches(masses, take.tails()) >= target) {
        work += (goal + 1) ** 2;
        visit(depth + 1, together(masses, take.masses()), cost, withIt);
      }
    }
    current[depth] = 0;
  };
  visit(0, none(goal), 0, new Map());
  const exact = work <= most;
  if (!exact) {
    const end = 2 * most;
    const improved = () =>
      choices.some(({ takes }, at) =>
        [best.takes[at]! + 1, best.takes[at]! - 1].some((index) => {
          if (index < 0 || index >= takes.length || work > end) return false;
          const tried = best.takes.map((take, other) => (other === at ? index : take));
          work += choices.length * (goal + 1) ** 2;
          return weigh(tried, massesOf(tried), spendOf(choices, tried));
        }),
      );
    while (improved());
  }
  return { takes: best.takes, exact: exact && start.exact };
}

/** Averages this close are one. */
const SAME_COST = 1e-6;

/** Everything on offer, and then of each as little as still reaches the target: for a search that gives up. */
function leanest(order: readonly Choice[], goal: number, target: number) {
  const at = order.map(({ takes }) => takes.length - 1);
  const masses = (but?: number) =>
    order.reduce((sum, { takes }, depth) => (depth === but ? sum : together(sum, takes[at[depth]!]!.masses())), none(goal));
  order.forEach(({ takes }, depth) => {
    const others = masses(depth);
    at[depth] = others[goal]! >= target ? 0 : (leastTake(takes, others, target) ?? at[depth]!);
  });
  return { takes: at, chance: masses()[goal]! };
}

/** Freight once per source. */
function spendOf(order: readonly Choice[], at: readonly number[]): Minor {
  const freight = new Map<string, Minor>();
  let spend = 0;
  order.forEach(({ offer, takes }, index) => {
    const take = takes[at[index]!]!;
    spend += take.spend;
    if (take.pieces > 0) freight.set(offer.source, Math.max(freight.get(offer.source) ?? 0, offer.freight ?? 0));
  });
  return [...freight.values()].reduce((sum, amount) => sum + amount, spend);
}

/** Index of the smallest take that reaches the target on top of `masses`; `masses` alone do not. */
function leastTake(takes: readonly Take[], masses: Float64Array, target: number): number | undefined {
  let high = takes.length - 1;
  if (reaches(masses, takes[high]!.tails()) < target) return undefined;
  let low = 0;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (reaches(masses, takes[middle]!.tails()) >= target) high = middle;
    else low = middle;
  }
  return high;
}

interface Rest {
  /** Everything from this offer on. */
  readonly everything: Float64Array;
  readonly everythingTails: Float64Array;
  /** Below this no branch reaches the target, freight not counted: the fewest pieces if all were as good as the best, at the price of the cheapest. */
  readonly leastSpend: (masses: Float64Array, target: number) => number;
}

function restOf(order: readonly Choice[], goal: number, lot: number): readonly Rest[] {
  let everything = none(goal);
  let bestShare = 0;
  let leastPrice = Number.POSITIVE_INFINITY;
  let pieces = 0;
  const rest: Rest[] = [{ everything, everythingTails: tailsOf(everything), leastSpend: () => 0 }];
  for (const { offer, takes } of [...order].reverse()) {
    const largest = takes[takes.length - 1]!;
    everything = together(everything, largest.masses());
    // A Beta share can turn out anything up to 1; lots lose pieces only once per offer, so they are left out of this bound.
    const known = typeof offer.shareGood === "number" && !isSure(offer.shareGood) && lot === 1;
    bestShare = Math.max(bestShare, known ? (offer.shareGood as number) : 1);
    leastPrice = takes.slice(1).reduce((least, take) => Math.min(least, take.spend / take.pieces), leastPrice);
    pieces += largest.counted;
    rest.unshift({
      everything,
      everythingTails: tailsOf(everything),
      leastSpend: leastSpendBound(bestShare, leastPrice, pieces, goal, lot),
    });
  }
  return rest;
}

function leastSpendBound(share: number, price: number, most: number, goal: number, lot: number): Rest["leastSpend"] {
  const tails = new Map<number, Float64Array>();
  const tailsFor = (count: number) => {
    const known = tails.get(count) ?? tailsOf(goodMasses(count, share, goal, lot));
    tails.set(count, known);
    return known;
  };
  return (masses, target) => {
    let low = 0;
    let high = most;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (reaches(masses, tailsFor(middle)) >= target) high = middle;
      else low = middle;
    }
    return high * price;
  };
}
