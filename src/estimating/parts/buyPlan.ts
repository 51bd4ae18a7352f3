/**
 * How many to buy from which offers so that enough are good. The plan is the cheapest one with P(at least `needed` good) >= the service level;
 * cheapest by what is spent on average, reorders with it, or, as books had it, by what is spent at once: packs, freight once per source, and the work of
 * pulling donor parts. Equal spend: the better chance. Exact: every mix of packs that could be cheaper is weighed, by binomial or beta-binomial masses.
 * What a reorder may come to is in `outcomes`.
 */
import type { Minor } from "../input.js";
import type { Chance } from "../risk/model.js";
import type { Buy, Raiser } from "../sheet.js";
import { expectedSpend, outcomesOf } from "./buyPlanOutcomes.js";
import { cheapestTakes, type Found } from "./buyPlanSearch.js";
import { type Choices, choicesOf, MOST_PIECES, named, type PlanAsk } from "./buyPlanTakes.js";
import { goodMasses, none, reaches, SAME_CHANCE, tailsOf, together } from "./shareGood.js";

export interface BuyPlan {
  /** false: no mix reaches the level; the plan is then the cheapest of those with the best chance. */
  readonly reached: boolean;
  readonly needed: number;
  readonly buys: readonly Buy[];
  readonly freight: Minor;
  /** All that is spent at once, freight included. */
  readonly spend: Minor;
  /** P(at least `needed` good). */
  readonly probability: number;
  /** What it comes to, reorder included; see outcomesOf. Their probabilities sum to 1; none when there is no offer. */
  readonly outcomes: readonly Chance[];
  readonly expectedSpend: number;
  /** Longest lead time among the buys. */
  readonly leadDays: number;
  /** With probability 1 - `probability` a reorder adds this. */
  readonly reorderDays: number;
  readonly raisers: readonly Raiser[];
  /** false: so many mixes, or so many pieces, that a slightly cheaper plan may exist; the chance is held all the same. */
  readonly exact: boolean;
}

/** Counts whole and not negative, prices whole and not negative, pack sizes 1 or more: the check of the input sees to that. */
export function buyPlan(ask: PlanAsk): BuyPlan {
  const choices = choicesOf(ask);
  const wanted = cheapestTakes(choices, ask.serviceLevel, ask);
  if (wanted !== undefined) return planOf(wanted, choices, ask.needed, []);
  const raisers = raisersOf(choices, ask);
  const best = choices.choices.length > 0 ? cheapestTakes(choices, "best", ask) : undefined;
  return best === undefined
    ? { ...NOTHING, needed: ask.needed, raisers }
    : { ...planOf(best, choices, ask.needed, raisers), reached: false };
}

const NOTHING: Omit<BuyPlan, "needed" | "raisers"> = {
  reached: false,
  buys: [],
  freight: 0,
  spend: 0,
  probability: 0,
  outcomes: [],
  expectedSpend: 0,
  leadDays: 0,
  reorderDays: 0,
  exact: true,
};

function planOf(found: Found, { choices, goal, lot }: Choices, needed: number, raisers: readonly Raiser[]): BuyPlan {
  const taken = choices.map((choice, index) => ({ choice, take: choice.takes[found.takes[index]!]! }));
  const bought = taken.filter(({ take }) => take.pieces > 0);
  const bySource = new Map<string, Minor>();
  for (const { choice } of bought)
    bySource.set(choice.offer.source, Math.max(bySource.get(choice.offer.source) ?? 0, choice.offer.freight ?? 0));
  const freight = [...bySource.values()].reduce((sum, amount) => sum + amount, 0);
  const spend = bought.reduce((sum, { take }) => sum + take.spend, freight);
  const { probability, outcomes, reorderDays } = outcomesOf(taken, goal, lot, spend);
  return {
    reached: true,
    needed,
    buys: bought.map(({ choice, take }) => ({
      ...named(choice.offer),
      packs: take.packs,
      pieces: take.pieces,
      spend: take.spend,
    })),
    freight,
    spend,
    probability,
    outcomes,
    expectedSpend: expectedSpend(outcomes),
    leadDays: Math.max(0, ...bought.map(({ choice }) => choice.offer.leadDays)),
    reorderDays,
    raisers,
    exact: found.exact,
  };
}

/** What would raise the chance to the service level when everything on offer is not enough. */
function raisersOf({ choices, goal, lot }: Choices, { needed, serviceLevel }: PlanAsk): readonly Raiser[] {
  if (choices.length === 0) return [{ is: "an offer" }];
  const level = serviceLevel - SAME_CHANCE;
  const largest = choices.map(({ takes }) => takes[takes.length - 1]!);
  const withAll = (but?: number) =>
    largest.reduce((sum, take, index) => (index === but ? sum : together(sum, take.masses())), none(goal));
  const raisers: Raiser[] = [];
  choices.forEach(({ offer }, index) => {
    const others = withAll(index);
    const has = largest[index]!.counted;
    const enough = (pieces: number) => reaches(others, tailsOf(goodMasses(pieces, offer.shareGood, goal, lot))) >= level;
    const pieces = fewest(enough, has, Math.max(has, MOST_PIECES));
    if (pieces !== undefined) raisers.push({ is: "more of an offer", ...named(offer), pieces: pieces - has });
  });
  const all = withAll();
  const sure = fewest((pieces) => reaches(all, tailsOf(goodMasses(pieces, 1, goal, lot))) >= level, 0, needed);
  if (sure !== undefined) raisers.push({ is: "pieces surely good", pieces: sure });
  raisers.push({ is: "a lower service level", level: all[goal]! });
  return raisers;
}

/** Smallest count above `from`, up to `most`, that is enough; more is never less enough. */
function fewest(enough: (count: number) => boolean, from: number, most: number): number | undefined {
  if (most <= from || !enough(most)) return undefined;
  let low = from;
  let high = most;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (enough(middle)) high = middle;
    else low = middle;
  }
  return high;
}
