/** Buy plans for the parts of a job that are hard to get or may turn out bad. What is bought for sure needs none. */
import type { EstimateInput, Minor, Offer, PartKind } from "../input.js";
import { countGroups } from "../labour/groups.js";
import { type BuyPlan, buyPlan } from "../parts/buyPlan.js";
import type { GoodCounts, PlanOffer } from "../parts/buyPlanTakes.js";
import { type Catalogue, readCatalogue } from "../parts/catalogue.js";
import { isSure, shareGoodOf } from "../parts/shareGood.js";
import type { PartResult } from "../sheet.js";

export interface Bought {
  readonly kind: PartKind;
  readonly part: { readonly type: string; readonly kind: string; readonly name: string };
  readonly pieces: number;
  /** Packs, and the work of pulling; freight apart. */
  readonly cost: Minor;
  readonly scarcity: PartResult["scarcity"];
  /** Ids of the offers bought from. */
  readonly offers: readonly string[];
}

export interface KindPlan {
  readonly bought: Bought;
  readonly plan: BuyPlan;
}

/** What was bought before: freight that each source has been paid, and pieces that each offer has given. Both grow as plans are made. */
export interface Purse {
  readonly paid: Map<string, Minor>;
  readonly taken: Map<string, number>;
}

/** Plans in the order given; a part that nobody offers has one without buys. The same question is worked out once. */
export type Planner = (all: Iterable<Bought>, purse: Purse) => readonly KindPlan[];

/** So many plans may each be searched to the end; where a job may need more, each gets its share, whatever is chosen: a price that was promised stays. */
const SEARCHED_WHOLE = 8;

/** Each part may have a plan of its own beside each choice that brings parts. */
function plansOf({ items, offers = [] }: EstimateInput): number {
  const offered = new Set(offers.map(({ kind }) => kind));
  const taking = items.filter(({ part }) => part && "kind" in part && offered.has(part.kind));
  const kinds = new Set(taking.map(({ part }) => (part && "kind" in part ? part.kind : "")));
  return kinds.size * (1 + countGroups(taking));
}

export function planner(input: EstimateInput): Planner {
  const { rateBook } = input;
  const { serviceLevel } = rateBook.scarcity;
  const pullRatePerHour = rateBook.labourClasses.find(({ id }) => id === rateBook.accessClass)?.ratePerHour ?? 0;
  const least = rateBook.risk === "shared" ? ({ least: "expected spend" } as const) : {};
  // A book from before risk was shared keeps its plans to the piece.
  const effort = rateBook.risk === "shared" ? Math.min(1, SEARCHED_WHOLE / plansOf(input)) : 1;
  const counts: GoodCounts = new Map();
  const plans = new Map<string, BuyPlan>();
  let catalogue: Catalogue | undefined;

  const freightOf = ({ freight = 0, source }: Offer, { paid }: Purse) => Math.max(0, freight - (paid.get(source) ?? 0));
  const leftOf = ({ available, id }: Offer, { taken }: Purse) =>
    available === undefined ? undefined : Math.max(0, available - (taken.get(id) ?? 0));
  const planOffer = (offer: Offer, purse: Purse): PlanOffer => {
    const available = leftOf(offer, purse);
    return {
      ...offer,
      shareGood: shareGoodOf(offer, rateBook.scarcity),
      freight: freightOf(offer, purse),
      reorderFreight: offer.freight ?? 0,
      ...(available !== undefined && { available }),
      pullRatePerHour,
    };
  };

  const planFor = ({ kind, pieces, scarcity, offers: used }: Bought, purse: Purse): BuyPlan | undefined => {
    catalogue ??= readCatalogue(input);
    const offers = catalogue.offers.get(kind.id) ?? [];
    const hard = scarcity === "scarce" || scarcity === "donor only";
    const mayBeBad = offers.some((offer) => used.includes(offer.id) && !isSure(shareGoodOf(offer, rateBook.scarcity)));
    if (!hard && !mayBeBad) return undefined;
    const key = `${pieces} ${offers.map((offer) => `${freightOf(offer, purse)} ${leftOf(offer, purse)}`).join()} ${kind.id}`;
    const plan =
      plans.get(key) ??
      buyPlan({ needed: pieces, serviceLevel, offers: offers.map((offer) => planOffer(offer, purse)), effort, counts, ...least });
    plans.set(key, plan);
    return plan;
  };

  return (all, purse) => {
    const made: KindPlan[] = [];
    for (const bought of all) {
      const plan = planFor(bought, purse);
      if (!plan) continue;
      made.push({ bought, plan });
      for (const { offer, source, pieces } of plan.buys) {
        const freight = catalogue?.offers.get(bought.kind.id)?.find(({ id }) => id === offer)?.freight ?? 0;
        purse.paid.set(source, Math.max(purse.paid.get(source) ?? 0, freight));
        purse.taken.set(offer, (purse.taken.get(offer) ?? 0) + pieces);
      }
    }
    return made;
  };
}

/** With no offers the rate book's margin stays. */
export const isUsable = ({ plan }: KindPlan): boolean => plan.buys.length > 0;
