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
