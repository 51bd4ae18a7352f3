/** What a form is read and priced against, from the shop's records. */

import { today } from "../../acts/today.js";
import type { Offer, PartKind, RateBook } from "../../estimating/input.js";
import type { FormContext } from "../../pages/form/context.js";
import type { Database } from "../../records/database.js";
import { every } from "../../records/noun.js";
import { asOffer, offers } from "../../records/offers.js";
import { asPartKind, partKinds } from "../../records/partKinds.js";
import { rateBooks } from "../../records/rateBooks.js";
import { type Settings, shopSettings } from "../../records/settings.js";
import { shopPaperwork } from "../paperwork.js";

export interface Shop {
  readonly settings: Settings;
  readonly context: FormContext;
}

/** `kept`: the rate book, parts and offers an estimate stands on already; they come before the catalogue's. */
export interface Kept {
  readonly rateBook: RateBook;
  readonly kinds: readonly PartKind[];
  readonly offers: readonly Offer[];
}

export async function openShop(db: Database, now: Date, kept?: Kept): Promise<Shop> {
  const settings = await shopSettings(db);
  const [book, kinds, found] = await Promise.all([
    kept ? undefined : rateBooks.find(db, settings.rateBookId),
    every((wanted) => partKinds.list(db, wanted)),
    every((wanted) => offers.list(db, wanted)),
  ]);
  const rateBook = kept?.rateBook ?? book?.book;
  if (!rateBook) throw new Error(`The settings name rate book ${settings.rateBookId}, and there is none.`);
  const own = new Set(kept?.kinds.map(({ id }) => id));
  const context: FormContext = {
    today: today(now, settings.timeZone),
    locale: settings.locale,
    currency: rateBook.currency,
    rateBook,
    kinds: [...(kept?.kinds ?? []), ...kinds.map(asPartKind).filter(({ id }) => !own.has(id))],
    offers: [...(kept?.offers ?? []), ...found.map(asOffer).filter(({ kind }) => !own.has(kind))],
    paperwork: shopPaperwork(settings),
  };
  return { settings, context };
}
