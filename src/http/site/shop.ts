/** What a form is read and priced against, from the shop's records. */

import { shopPaperwork } from "../../acts/paperwork.js";
import { today } from "../../acts/today.js";
import type { ExchangeRate, Offer, PartKind, RateBook } from "../../estimating/input.js";
import type { FormContext } from "../../pages/form/context.js";
import type { Database } from "../../records/database.js";
import type { Settings } from "../../records/settings.js";
import { shopRows } from "../../records/shopRows.js";

export interface Shop {
  readonly settings: Settings;
  readonly context: FormContext;
}

/**
 * `kept`: the rate book, parts, offers and exchange rates an estimate stands on already; they come before the catalogue's. A part that
 * it has no offer of takes those of now: nothing it rests on moves.
 */
export interface Kept {
  readonly rateBook: RateBook;
  readonly kinds: readonly PartKind[];
  readonly offers: readonly Offer[];
  readonly exchange: readonly ExchangeRate[];
}

export async function openShop(db: Database, now: Date, kept?: Kept): Promise<Shop> {
  const { settings, rateBook: usual, kinds, offers, exchange } = await shopRows(db, (timeZone) => today(now, timeZone));
  const rateBook = kept?.rateBook ?? usual;
  const own = new Set(kept?.kinds.map(({ id }) => id));
  const offered = new Set(kept?.offers.map(({ kind }) => kind));
  const context: FormContext = {
    today: today(now, settings.timeZone),
    locale: settings.locale,
    currency: rateBook.currency,
    rateBook,
    kinds: [...(kept?.kinds ?? []), ...kinds.filter(({ id }) => !own.has(id))],
    offers: [...(kept?.offers ?? []), ...offers.filter(({ kind }) => !offered.has(kind))],
    exchange: { kept: kept?.exchange ?? [], known: exchange },
    paperwork: shopPaperwork(settings),
  };
  return { settings, context };
}
