import { eq } from "drizzle-orm";
import { faultsIn, shopRateBook } from "../../acts/checked.js";
import { keptOffer, offerValue } from "../../acts/shapes/resources.js";
import type { Kept } from "../../records/columns.js";
import { type OfferValue, offersTable, offers as records } from "../../records/offers.js";
import { asPartKind, partKinds } from "../../records/partKinds.js";
import { resource } from "./resource.js";

export const offers = resource<OfferValue, OfferValue & Kept>({
  path: "/api/offers",
  one: "offer",
  many: "offers",
  value: offerValue,
  kept: keptOffer,
  narrow: { kind: "Only offers of this part kind" },
  ...records,
  list: (db, wanted, { kind }) => records.list(db, wanted, kind ? eq(offersTable.kind, kind) : undefined),
  check: async (db, value) => {
    const kind = await partKinds.find(db, value.kind);
    // An unknown kind is answered when the record is written.
    if (!kind) return [];
    return faultsIn({ kinds: [asPartKind(kind)], offers: [{ ...value, id: "new" }] }, await shopRateBook(db), "/offers/0");
  },
});
