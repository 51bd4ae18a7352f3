/** What may be taken of each offer: none, or its minimum of packs and more, up to what it has or what would do alone. */
import type { Minor, Minutes, OfferState } from "../input.js";
import { priceMilli, toMilli } from "../money/scales.js";
import { drawsMean } from "../risk/goodCounts.js";
import { goodMasses, isSure, meanShare, SAME_CHANCE, type Share, tailsOf } from "./shareGood.js";

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
  /** What is least: what is spent on average, reorders with it; absent: what is spent at once, as books had it. */
  readonly least?: "expected spend";
  /** Share of what one plan alone is searched with, where a job has many; absent: all of it. */
  readonly effort?: number;
  /** How many of a count are good, worked out for other plans of the job. */
  readonly counts?: GoodCounts;
}

interface GoodCount {
  readonly masses: Float64Array;
  readonly tails: Float64Array;
}
export type GoodCounts = Map<string, GoodCount>;

/** What tells an offer from another. */
export const named = ({ id, source, state }: PlanOffer) => ({ offer: id, source, ...(state && { state }) });

export interface Take {
  readonly packs: number;
  readonly pieces: number;
  /** Of these, what was looked at. */
  readonly counted: number;
  readonly spend: Minor;
  readonly masses: () => Float64Array;
  readonly tails: () => Float64Array;
}

export interface Choice {
  readonly offer: PlanOffer;
  /** Ascending by packs; the first takes none. */
  readonly takes: readonly Take[];
}

/** Pieces are counted one by one up to this many needed; beyond, in lots, which errs towards buying a little more. */
const COUNTED = 300;
/** An offer without a known limit is looked at up to this many times what would be needed on average. */
const MANY_TIMES = 20;
/** Nor beyond so many pieces, whatever the offer has. What is surely good needs no looking at: it is taken up to the need. */
export const MOST_PIECES = 500;

/** So many packs are looked at beyond what is enough. */
const MOST_MORE = 40;

export interface Choices {
  readonly choices: readonly Choice[];
  /** Good pieces are counted in lots of this. */
  readonly lot: number;
  /** Lots needed. */
  readonly goal: number;
}

/** Offers that can give a good piece, in the order given. A level of 1 leaves only those whose pieces are all good. */
export function choicesOf({ needed, offers, serviceLevel, least, counts = new Map() }: PlanAsk): Choices {
  const lot = Math.max(1, Math.ceil(needed / COUNTED));
  const goal = Math.ceil(needed / lot);
  const choices = offers
    .filter(({ shareGood }) => (serviceLevel >= 1 ? isSure(shareGood) : meanShare(shareGood) > 0))
    .map((offer): Choice => {
      const wanted = Math.ceil((MANY_TIMES * needed) / meanShare(offer.shareGood));
      const looked = Math.min(wanted, Math.max(MOST_PIECES, isSure(offer.shareGood) ? goal * lot : 0));
      const looking: Looking = { looked, goal, lot, counts, share: shareKey(offer.shareGood) };
      const takes = takesOf(offer, looking, serviceLevel);
      return { offer, takes: least === undefined ? takes : withMore(takes, offer, looking, offers) };
    });
  return { choices: choices.filter(({ takes }) => takes.length > 1), lot, goal };
}

interface Looking {
  readonly looked: number;
  readonly goal: number;
  readonly lot: number;
  readonly counts: GoodCounts;
  readonly share: string;
}

const shareKey = (share: Share): string => (typeof share === "number" ? `${share}` : `${share.good}/${share.bad}`);

/** Where one minimum order holds more than is looked at, it is taken, and what is beyond counts as bad. */
function takesOf(offer: PlanOffer, looking: Looking, level: number): readonly Take[] {
  const { looked, goal } = looking;
  const least = Math.max(1, offer.minimumPacks ?? 1);
  const to = Math.min(offer.available ?? Number.POSITIVE_INFINITY, looked + offer.packSize * least);
  const all = Math.max(least - 1, Math.floor(to / offer.packSize));
  const takeMore = (more: number) => takeOf(offer, least + more, looking);
  // Enough alone: taking more of it would only cost more.
  let low = -1;
  let high = all - least;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (takeMore(middle).tails()[goal]! >= level - SAME_CHANCE) high = middle;
    else low = middle;
  }
  return [takeOf(offer, 0, looking), ...Array.from({ length: high + 1 }, (_, more) => takeMore(more))];
}

/** What is enough alone, and more as long as it may save more of a reorder than it costs. */
function withMore(takes: readonly Take[], offer: PlanOffer, looking: Looking, offers: readonly PlanOffer[]): readonly Take[] {
  const { looked, goal, lot } = looking;
  const worst = Math.max(...offers.map((each) => reorderFrom(each, packsFor(each, goal * lot)).spend));
  const more = [...takes];
  for (let left = MOST_MORE; left > 0; left--) {
    const last = more[more.length - 1]!;
    if (last.pieces === 0 || last.counted >= looked) break;
    const next = takeOf(offer, last.packs + 1, looking);
    if (next.pieces > (offer.available ?? Number.POSITIVE_INFINITY)) break;
    if ((1 - last.tails()[goal]!) * worst <= next.spend - last.spend) break;
    more.push(next);
  }
  return more;
}

function takeOf(offer: PlanOffer, packs: number, { looked, goal, lot, counts, share }: Looking): Take {
  const pieces = packs * offer.packSize;
  const counted = Math.min(pieces, looked);
  let own: GoodCount | undefined;
  const good = (): GoodCount => {
    if (own) return own;
    const key = `${counted} ${goal} ${lot} ${share}`;
    own = counts.get(key);
    if (own) return own;
    const masses = goodMasses(counted, offer.shareGood, goal, lot);
    own = { masses, tails: tailsOf(masses) };
    counts.set(key, own);
    return own;
  };
  return { packs, pieces, counted, spend: spendOn(offer, packs), masses: () => good().masses, tails: () => good().tails };
}

/** Packs and pulling, freight apart. */
export const spendOn = (offer: PlanOffer, packs: number): Minor =>
  packs * offer.price + priceMilli(toMilli((offer.pullMinutes ?? 0) * packs * offer.packSize), offer.pullRatePerHour ?? 0);

export interface Reorder {
  readonly spend: Minor;
  readonly days: number;
}

/** Packs that hold so many good pieces on average, in the offer's own way of selling. */
export const packsFor = (offer: PlanOffer, short: number): number =>
  Math.max(offer.minimumPacks ?? 1, Math.ceil(drawsMean(short, meanShare(offer.shareGood)) / offer.packSize - 1e-9));

export const reorderFrom = (offer: PlanOffer, packs: number): Reorder => ({
  spend: spendOn(offer, packs) + (offer.reorderFreight ?? offer.freight ?? 0),
  days: offer.leadDays,
});
