/** What an offer can give: its age, its pieces, its packs. */
import type { IsoDate, Offer } from "../input.js";

const DAY = 86_400_000;

/** Whole days from one ISO date to another. */
export const daysBetween = (from: IsoDate, to: IsoDate): number => Math.round((Date.parse(to) - Date.parse(from)) / DAY);

/** Pieces to be had in whole packs; 0 when there are fewer than the fewest packs sold. */
export function capacity(offer: Offer): number {
  if (offer.available === undefined) return Number.POSITIVE_INFINITY;
  const packs = Math.floor(offer.available / offer.packSize);
  return packs < (offer.minimumPacks ?? 1) ? 0 : packs * offer.packSize;
}

/** Pieces in the whole packs that hold so many. */
export const wholePacks = (offer: Offer, pieces: number): number =>
  Math.max(Math.ceil(pieces / offer.packSize), offer.minimumPacks ?? 1) * offer.packSize;

/** Cheapest piece first; then the quicker; then by id, so that the order of the input does not matter. */
export const byUnitCost = (a: Offer, b: Offer): number =>
  a.price * b.packSize - b.price * a.packSize || a.leadDays - b.leadDays || (a.id < b.id ? -1 : 1);
