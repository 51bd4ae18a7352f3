/** Test only: every mix of packs of a small case, its chance from jstat's masses, written apart from the engine. */
import { jStat } from "jstat";
import type { PlanAsk, PlanOffer } from "../../../src/estimating/parts/buyPlanTakes.js";

/** P(exactly g of n good). */
function chanceOfGood(offer: PlanOffer, n: number, g: number): number {
  const share = offer.shareGood;
  if (typeof share === "number")
    return n === 0 ? (g === 0 ? 1 : 0) : share === 1 ? (g === n ? 1 : 0) : jStat.binomial.pdf(g, n, share);
  const { good, bad } = share;
  if (n === 0) return g === 0 ? 1 : 0;
  return Math.exp(jStat.combinationln(n, g) + jStat.betaln(g + good, n - g + bad) - jStat.betaln(good, bad));
}

function chanceOfEnough(offers: readonly PlanOffer[], pieces: readonly number[], needed: number, at = 0): number {
  if (at === offers.length) return needed <= 0 ? 1 : 0;
  let sum = 0;
  for (let good = 0; good <= pieces[at]!; good++)
    sum += chanceOfGood(offers[at]!, pieces[at]!, good) * chanceOfEnough(offers, pieces, needed - good, at + 1);
  return sum;
}

export interface Mix {
  readonly packs: readonly number[];
  readonly spend: number;
  readonly chance: number;
}

/** Offers must state what they have. */
export function allMixes({ needed, offers }: PlanAsk): readonly Mix[] {
  const mixes: Mix[] = [];
  const visit = (packs: readonly number[]): void => {
    if (packs.length < offers.length) {
      const { packSize, minimumPacks = 1, available } = offers[packs.length]!;
      visit([...packs, 0]);
      for (let count = minimumPacks; count * packSize <= available!; count++) visit([...packs, count]);
      return;
    }
    const freight = new Map<string, number>();
    let spend = 0;
    packs.forEach((count, index) => {
      const offer = offers[index]!;
      if (count === 0) return;
      const pulling = Math.round((count * offer.packSize * (offer.pullMinutes ?? 0) * (offer.pullRatePerHour ?? 0)) / 60);
      spend += count * offer.price + pulling;
      freight.set(offer.source, Math.max(freight.get(offer.source) ?? 0, offer.freight ?? 0));
    });
    for (const amount of freight.values()) spend += amount;
    const pieces = packs.map((count, index) => count * offers[index]!.packSize);
    mixes.push({ packs, spend, chance: chanceOfEnough(offers, pieces, needed) });
  };
  visit([]);
  return mixes;
}

/** P(exactly g good of all that is taken), for g = 0 and on. */
function goodOf(offers: readonly PlanOffer[], packs: readonly number[]): number[] {
  let chances = [1];
  offers.forEach((offer, index) => {
    const pieces = packs[index]! * offer.packSize;
    const next = Array.from({ length: chances.length + pieces }, () => 0);
    chances.forEach((chance, before) => {
      for (let good = 0; good <= pieces; good++) next[before + good]! += chance * chanceOfGood(offer, pieces, good);
    });
    chances = next;
  });
  return chances;
}

/** What a mix costs on average, with the reorder of what is short: at the cheapest that has enough left for it, else at the dearest. */
export function expectedOf({ needed, offers }: PlanAsk, { packs, spend }: Mix): number {
  const reorder = (short: number): number => {
    const each = offers.map((offer, index) => {
      const share =
        typeof offer.shareGood === "number"
          ? offer.shareGood
          : offer.shareGood.good / (offer.shareGood.good + offer.shareGood.bad);
      const more = Math.max(offer.minimumPacks ?? 1, Math.ceil(short / share / offer.packSize - 1e-9));
      const pulling = Math.round((more * offer.packSize * (offer.pullMinutes ?? 0) * (offer.pullRatePerHour ?? 0)) / 60);
      return {
        cost: more * offer.price + pulling + (offer.freight ?? 0),
        left: (packs[index]! + more) * offer.packSize <= offer.available!,
        sold: (offer.minimumPacks ?? 1) * offer.packSize <= offer.available!,
      };
    });
    const known = each.filter(({ sold }) => sold);
    const left = known.filter((one) => one.left);
    return left.length > 0 ? Math.min(...left.map(({ cost }) => cost)) : Math.max(...known.map(({ cost }) => cost));
  };
  return goodOf(offers, packs).reduce(
    (sum, chance, good) => sum + (good < needed && chance > 0 ? chance * reorder(needed - good) : 0),
    spend,
  );
}
