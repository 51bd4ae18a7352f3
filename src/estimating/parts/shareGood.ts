/** What share of an offer's pieces is good: as stated or by the rate book, and then by what was seen of such pieces; and how many good ones come out of what is bought. */
import type { Offer, OfferState, ScarcityRules, SeenGood } from "../input.js";
import { betaBinomialMasses, binomialMasses } from "../risk/goodCounts.js";

/** Pieces that a stated share, or the rate book's, counts for beside pieces that were seen. */
export const BOOK_PIECES = 5;

/** A share that is itself uncertain, Beta(good, bad): pieces counted good and bad, what was believed before included. Not whole in general. */
interface BetaShare {
  readonly good: number;
  readonly bad: number;
}
export type Share = number | BetaShare;

/** New and reproduction parts are taken to be good unless an offer says otherwise (Offer.shareGood). */
export const bookShare = (state: OfferState, { shareGood }: ScarcityRules): number =>
  state === "new" || state === "reproduction" ? 1 : shareGood[state];

/** Beta posterior: the share before stands for `weight` pieces. */
export const shareAfter = (before: number, seen: SeenGood, weight = BOOK_PIECES): BetaShare => ({
  good: weight * before + seen.good,
  bad: weight * (1 - before) + seen.bad,
});

/** A known share, or the belief about it once pieces were counted. */
export function shareGoodOf({ shareGood, state, seenGood }: Offer, rules: ScarcityRules): Share {
  const before = shareGood ?? bookShare(state, rules);
  return seenGood === undefined ? before : shareAfter(before, seenGood);
}

/** Expected share of good pieces. */
export const meanShare = (share: Share): number =>
  typeof share === "number" ? share : share.good + share.bad > 0 ? share.good / (share.good + share.bad) : 0;

/** Surely good, every one. */
export const isSure = (share: Share): boolean => meanShare(share) >= 1;

/** Masses of 0, 1, ... goal - 1 good; the last entry stands for the goal or more. Good ones among `pieces` bought together, counted in whole lots of `lot`; what does not fill a lot is not counted. */
export function goodMasses(pieces: number, share: Share, goal: number, lot = 1): Float64Array {
  // No bad piece ever counted, or no good one: the limit cases of the Beta share are certainties.
  const certain = typeof share === "number" ? share : share.bad <= 0 || share.good <= 0 ? meanShare(share) : undefined;
  const masses =
    certain !== undefined
      ? binomialMasses(pieces, certain)
      : betaBinomialMasses(pieces, (share as { good: number }).good, (share as { bad: number }).bad);
  const out = new Float64Array(goal + 1);
  for (let good = 0; good < masses.length; good++) out[Math.min(Math.floor(good / lot), goal)]! += masses[good]!;
  return out;
}

/** Two lots together. */
export function together(a: Float64Array, b: Float64Array): Float64Array {
  const goal = a.length - 1;
  const out = new Float64Array(goal + 1);
  for (let i = 0; i <= goal; i++) {
    const weight = a[i]!;
    if (weight === 0) continue;
    for (let j = 0; j <= goal; j++) out[Math.min(goal, i + j)]! += weight * b[j]!;
  }
  return out;
}

/** P(at least j good) for j = 0..goal. */
export function tailsOf(masses: Float64Array): Float64Array {
  const tails = new Float64Array(masses.length);
  let sum = 0;
  for (let good = masses.length - 1; good >= 0; good--) {
    sum += masses[good]!;
    tails[good] = Math.min(1, sum);
  }
  return tails;
}

/** P(the goal is reached by both together), without building their masses. */
export function reaches(a: Float64Array, tailsOfB: Float64Array): number {
  const goal = a.length - 1;
  let sum = a[goal]!;
  for (let good = 0; good < goal; good++) sum += a[good]! * tailsOfB[goal - good]!;
  return Math.min(1, sum);
}

/** Nothing bought. */
export function none(goal: number): Float64Array {
  const masses = new Float64Array(goal + 1);
  masses[0] = 1;
  return masses;
}

/** Chances this close are one chance: below what sums of masses can tell apart. */
export const SAME_CHANCE = 1e-12;
