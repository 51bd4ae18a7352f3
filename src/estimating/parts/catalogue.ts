/** Part types, kinds and their offers, looked up once for an estimate. */
import { type Index, indexed } from "../book.js";
import type { EstimateInput, Offer, PartKind, PartType } from "../input.js";
import { byUnitCost } from "./offers.js";

export type PartsContext = Pick<EstimateInput, "kinds" | "offers" | "rateBook" | "policy" | "asOf" | "currency">;

export interface Catalogue {
  readonly types: Index<PartType>;
  readonly kinds: Index<PartKind>;
  /** Made by that day, in the estimate's currency; cheapest piece first. */
  readonly offers: ReadonlyMap<string, readonly Offer[]>;
}

export function readCatalogue({ rateBook, kinds = [], offers = [], asOf, currency }: PartsContext): Catalogue {
  const byId = ({ id }: { readonly id: string }) => id;
  const byKind = new Map<string, Offer[]>();
  for (const offer of offers) {
    if (offer.on > asOf || offer.currency !== currency) continue;
    const list = byKind.get(offer.kind);
    if (list) list.push(offer);
    else byKind.set(offer.kind, [offer]);
  }
  for (const list of byKind.values()) list.sort(byUnitCost);
  return { types: indexed(rateBook.partTypes, byId), kinds: indexed(kinds, byId), offers: byKind };
}
