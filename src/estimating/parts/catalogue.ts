/** Part types, kinds and their offers, looked up once for an estimate. */
import { type Index, indexed } from "../book.js";
import type { EstimateInput, IsoDate, Offer, PartKind, PartType } from "../input.js";
import { type LandedOffer, landed } from "../money/landed.js";

export type PartsContext = Pick<EstimateInput, "kinds" | "offers" | "exchange" | "rateBook" | "policy" | "asOf" | "currency">;

export interface Catalogue {
  readonly types: Index<PartType>;
  readonly kinds: Index<PartKind>;
  /** Made by that day, landed in the estimate's currency; cheapest piece first. */
  readonly offers: ReadonlyMap<string, readonly LandedOffer[]>;
}

export function readCatalogue(context: PartsContext): Catalogue {
  const { rateBook, kinds = [], offers = [], asOf } = context;
  const byId = ({ id }: { readonly id: string }) => id;
  const byKind = new Map<string, LandedOffer[]>();
  for (const given of offers) {
    const offer = given.on > asOf ? undefined : landed(given, context);
    if (!offer) continue;
    const list = byKind.get(offer.kind);
    if (list) list.push(offer);
    else byKind.set(offer.kind, [offer]);
  }
  for (const list of byKind.values()) list.sort(byUnitCost);
  return { types: indexed(rateBook.partTypes, byId), kinds: indexed(kinds, byId), offers: byKind };
}

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
