/** How many pieces of what came in were good, by source and by state: a beta posterior that starts from the rate book's share. */
import type { OfferState, RateBook } from "../../input.js";
import { BOOK_PIECES, bookShare, meanShare, shareAfter } from "../../parts/shareGood.js";
import { betaQuantile } from "../statistics.js";

/** One lot received and tested. */
export interface GoodsIn {
  readonly source: string;
  readonly state: OfferState;
  /** Pieces tested, and the good ones among them. */
  readonly pieces: number;
  readonly good: number;
}

export interface ShareBelief {
  /** Absent: all sources of this state. */
  readonly source?: string;
  readonly state: OfferState;
  readonly pieces: number;
  readonly good: number;
  /** What the rate book assumes. */
  readonly book: number;
  /** Mean of the posterior Beta(w s + good, w (1 - s) + bad), s the book's share and w its weight in pieces. */
  readonly share: number;
  /** Eight times in ten the share lies between these. */
  readonly low: number;
  readonly high: number;
}

/** By state first, then by source and state, each in order of first receipt. */
export function sharesGood(
  received: readonly GoodsIn[],
  { scarcity }: Pick<RateBook, "scarcity">,
  weight = BOOK_PIECES,
): ShareBelief[] {
  const sums = new Map<string, { source?: string; state: OfferState; pieces: number; good: number }>();
  const add = (key: string, lot: GoodsIn, source?: string) => {
    const sum = sums.get(key) ?? { ...(source !== undefined && { source }), state: lot.state, pieces: 0, good: 0 };
    sums.set(key, { ...sum, pieces: sum.pieces + lot.pieces, good: sum.good + lot.good });
  };
  for (const lot of received) add(JSON.stringify([lot.state]), lot);
  for (const lot of received) add(JSON.stringify([lot.state, lot.source]), lot, lot.source);
  return [...sums.values()].map((sum) => {
    const book = bookShare(sum.state, scarcity);
    return { ...sum, book, ...posterior(book, weight, sum) };
  });
}

function posterior(book: number, weight: number, { pieces, good }: Pick<GoodsIn, "pieces" | "good">) {
  const after = shareAfter(book, { good, bad: pieces - good }, weight);
  const { good: a, bad: b } = after;
  // A share of 1 that was never disproved still has a range: as if half a piece had been bad.
  const [left, right] = [a === 0 ? 0.5 : a, b === 0 ? 0.5 : b];
  return { share: meanShare(after), low: betaQuantile(0.1, left, right), high: b === 0 ? 1 : betaQuantile(0.9, left, right) };
}
