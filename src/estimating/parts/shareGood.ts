/** What share of an offer's pieces is good: as stated or by the rate book, and then by what was seen of such pieces. */
import type { Offer, OfferState, ScarcityRules, SeenGood } from "../input.js";

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
