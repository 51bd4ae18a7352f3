/** From which offers the pieces of one part are bought, for all jobs together. */
import type { Minor, Offer, ScarcityRules } from "../input.js";
import { buyPlan } from "./buyPlan.js";
import { byUnitCost, capacity, wholePacks } from "./catalogue.js";
import type { Claim } from "./jobParts.js";
import { chooseLots, extraFreight, type FreightPaid, payFreight } from "./lot.js";
import { isSure, shareGoodOf } from "./shareGood.js";

export interface Served {
  readonly job: string;
  readonly pieces: number;
}

export interface Purchase {
  readonly offer: Offer;
  /** Pieces wanted of it, packs apart. Of parts that may turn out bad: those bought. */
  readonly pieces: number;
  readonly jobs: readonly Served[];
  /** P(enough good pieces), where some may turn out bad. */
  readonly chance?: number;
}

export interface BuyingRules {
  readonly scarcity: ScarcityRules;
  /** Minor units, for pulling donor parts. */
  readonly pullRatePerHour: Minor;
}

/** The newest of a way to buy: same source and state. */
function newestOf(chosen: Offer, offers: readonly Offer[]): Offer {
  const same = offers.filter(({ source, state }) => source === chosen.source && state === chosen.state);
  return same.reduce((newest, offer) => (offer.on > newest.on ? offer : newest), chosen);
}

/** One offer of each way to buy, its newest, cheapest piece first. */
const standingOffers = (offers: readonly Offer[]): Offer[] =>
  offers.filter((offer) => newestOf(offer, offers).id === offer.id).sort(byUnitCost);

/**
 * `claims`: with something to get. `offers`: all of this part, landed in the currency of the claims and made by today. What a job's sheet bought is bought there, at the
 * newest price; the rest at the cheapest. Where what is bought may turn out bad, one buy plan takes the place of both. Pays the
 * freight it causes into `paid`. What nobody offers is left out.
 */
export function buyFor(claims: readonly Claim[], offers: readonly Offer[], rules: BuyingRules, paid: FreightPaid): Purchase[] {
  const standing = standingOffers(offers);
  const shelves = asTheSheets(claims, offers, standing, paid);
  const bought = shelves.every(({ offer }) => isSure(shareGoodOf(offer, rules.scarcity)))
    ? shareSpares(shelves)
    : planned(claims, standing, rules, paid);
  payFreight(bought.map(lotOf), paid);
  return bought;
}

function asTheSheets(claims: readonly Claim[], offers: readonly Offer[], standing: readonly Offer[], paid: FreightPaid) {
  const bought = new Map<string, { offer: Offer; pieces: number; jobs: Map<string, number> }>();
  const room = (offer: Offer) => capacity(offer) - (bought.get(offer.id)?.pieces ?? 0);
  const buy = (offer: Offer, job: string, pieces: number) => {
    const at = bought.get(offer.id) ?? { offer, pieces: 0, jobs: new Map<string, number>() };
    at.pieces += pieces;
    at.jobs.set(job, (at.jobs.get(job) ?? 0) + pieces);
    bought.set(offer.id, at);
  };
  const open: { readonly job: string; left: number }[] = [];
  for (const { job, toGet, buys } of claims) {
    let left = toGet;
    for (const [at, { offer: id, pieces }] of buys.entries()) {
      const chosen = offers.find((offer) => offer.id === id);
      if (!chosen) continue;
      const offer = newestOf(chosen, standing);
      const taken = Math.min(left, room(offer), at === buys.length - 1 ? left : pieces);
      if (taken > 0) buy(offer, job, taken);
      left -= taken;
    }
    open.push({ job, left });
  }
  // Spare pieces of packs that are bought anyway come first.
  for (const need of open)
    for (const { offer, pieces } of [...bought.values()]) {
      const taken = Math.min(need.left, wholePacks(offer, pieces) - pieces);
      if (taken > 0) buy(offer, need.job, taken);
      need.left -= Math.max(0, taken);
    }
  const unsettled = open.reduce((sum, { left }) => sum + left, 0);
  const rest = standing.map((offer) => ({ ...offer, available: room(offer) }));
  const limited = rest.map((offer) => (offer.available === Number.POSITIVE_INFINITY ? unlimited(offer) : offer));
  const lots = unsettled === 0 ? [] : chooseLots(unsettled, limited, true, (some) => cost(some) + extraFreight(some, paid));
  for (const { offer, pieces } of lots) {
    let left = pieces;
    for (const need of open) {
      const taken = Math.min(left, need.left);
      if (taken > 0) buy(standing.find(({ id }) => id === offer!.id)!, need.job, taken);
      need.left -= taken;
      left -= taken;
    }
  }
  return [...bought.values()].map(({ jobs, ...rest }): Purchase => ({ ...rest, jobs: served(jobs) }));
}

const unlimited = ({ available: _, ...offer }: Offer): Offer => offer;
const served = (jobs: ReadonlyMap<string, number>): Served[] => [...jobs].map(([job, pieces]) => ({ job, pieces }));
const cost = (lots: Parameters<typeof extraFreight>[0]): Minor =>
  lots.reduce((sum, { charged, price, per }) => sum + (charged / per) * price, 0);
const lotOf = ({ offer, pieces }: Purchase) =>
  ({ way: "offer", offer, pieces, charged: pieces, price: offer.price, per: offer.packSize }) as const;

/** Jobs that chose different offers: what the spare pieces of one purchase cover is not bought elsewhere. */
function shareSpares(purchases: readonly Purchase[]): Purchase[] {
  const kept = [...purchases].sort((a, b) => b.pieces - a.pieces);
  for (let at = kept.length - 1; at > 0; at--) {
    const small = kept[at]!;
    const into = kept.findIndex((one, other) => other !== at && wholePacks(one.offer, one.pieces) - one.pieces >= small.pieces);
    if (into < 0) continue;
    const large = kept[into]!;
    const jobs = new Map<string, number>();
    for (const { job, pieces } of [...large.jobs, ...small.jobs]) jobs.set(job, (jobs.get(job) ?? 0) + pieces);
    kept[into] = { ...large, pieces: large.pieces + small.pieces, jobs: served(jobs) };
    kept.splice(at, 1);
  }
  return kept;
}

/** The cheapest mix with enough good pieces for all jobs, at the service level of the rate book. */
function planned(claims: readonly Claim[], standing: readonly Offer[], rules: BuyingRules, paid: FreightPaid): Purchase[] {
  const needed = claims.reduce((sum, { toGet }) => sum + toGet, 0);
  const { buys, probability } = buyPlan({
    needed,
    serviceLevel: rules.scarcity.serviceLevel,
    offers: standing.map((offer) => ({
      ...offer,
      shareGood: shareGoodOf(offer, rules.scarcity),
      freight: Math.max(0, (offer.freight ?? 0) - (paid.get(offer.source)?.amount ?? 0)),
      reorderFreight: offer.freight ?? 0,
      pullRatePerHour: rules.pullRatePerHour,
    })),
  });
  const jobs = claims.map(({ job, toGet }) => ({ job, pieces: toGet }));
  return buys.map(({ offer, pieces }) => ({
    offer: standing.find(({ id }) => id === offer)!,
    pieces,
    jobs,
    chance: probability,
  }));
}
