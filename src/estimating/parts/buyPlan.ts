/**
 * How many to buy from which offers so that enough are good. The plan is the cheapest one with P(at least `needed` good) >= the service level;
 * cheapest by what is spent at once: packs, freight once per source, and the work of pulling donor parts. Equal spend: the better chance.
 * Exact: every mix of packs that could be cheaper is weighed, by binomial or beta-binomial masses. What a reorder may come to is in `outcomes`.
 */
import type { Minor, Minutes, OfferState } from "../input.js";
import type { Chance } from "../risk/model.js";
import { outcomesOf } from "./buyPlanOutcomes.js";
import { cheapestTakes, type Found } from "./buyPlanSearch.js";
import { raisersOf } from "./buyPlanShort.js";
import { type Choices, choicesOf } from "./buyPlanTakes.js";
import type { Share } from "./shareGood.js";

export interface PlanOffer {
  readonly id: string;
  readonly source: string;
  /** As stated with the plan: an offer is told by its source and state. */
  readonly state?: OfferState;
  /** Minor units for one pack. */
  readonly price: Minor;
  readonly packSize: number;
  readonly minimumPacks?: number;
  /** Pieces to be had; absent: no known limit. */
  readonly available?: number;
  /** A known share, 0 to 1, or a Beta share that all its pieces have in common. */
  readonly shareGood: Share;
  /** Minor units, once per source: the highest stated by the offers taken from it. */
  readonly freight?: Minor;
  /** What a reorder pays where the first freight is paid already; absent: `freight`. */
  readonly reorderFreight?: Minor;
  readonly leadDays: number;
  /** To pull one piece, good or bad, at `pullRatePerHour` minor units. */
  readonly pullMinutes?: Minutes;
  readonly pullRatePerHour?: Minor;
}

export interface PlanAsk {
  readonly needed: number;
  readonly offers: readonly PlanOffer[];
  /** 0 to 1. At 1 only pieces that are surely good will do. */
  readonly serviceLevel: number;
}

export interface Buy {
  readonly offer: string;
  readonly source: string;
  readonly state?: OfferState;
  readonly packs: number;
  readonly pieces: number;
  /** Packs and pulling, freight apart. */
  readonly spend: Minor;
}

/** What would bring the chance up to the service level, everything else on offer being bought too. */
export type Raiser =
  | { readonly is: "an offer" }
  | {
      readonly is: "more of an offer";
      readonly offer: string;
      readonly source: string;
      readonly state?: OfferState;
      readonly pieces: number;
    }
  | { readonly is: "pieces surely good"; readonly pieces: number }
  | { readonly is: "a lower service level"; readonly level: number };

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
  const wanted = cheapestTakes(choices, ask.serviceLevel);
  if (wanted !== undefined) return planOf(wanted, choices, ask.needed, []);
  const raisers = raisersOf(choices, ask);
  const best = choices.choices.length > 0 ? cheapestTakes(choices, "best") : undefined;
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

/** What tells an offer from another. */
export const named = ({ id, source, state }: PlanOffer) => ({ offer: id, source, ...(state && { state }) });

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
    expectedSpend: outcomes.reduce((sum, outcome) => sum + outcome.probability * outcome.amount, 0),
    leadDays: Math.max(0, ...bought.map(({ choice }) => choice.offer.leadDays)),
    reorderDays,
    raisers,
    exact: found.exact,
  };
}
