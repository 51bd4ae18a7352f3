/** What every estimate is priced against, in one read: settings, the rate book in use, the catalogue and its offers. */
import { asc, eq, isNull, sql } from "drizzle-orm";
import type { ExchangeRate, IsoDate, Offer, PartKind, RateBook } from "../estimating/input.js";
import type { Kept } from "./columns.js";
import type { Database } from "./database.js";
import { newestRates } from "./exchangeRates.js";
import { withoutNulls } from "./noun.js";
import { asOffer, offersTable } from "./offers.js";
import { asPartKind, partKindsTable } from "./partKinds.js";
import { booksSince, inForceOn } from "./rateBooks.js";
import { type Settings, SHOP, settingsTable } from "./settings.js";

export interface ShopRows {
  readonly settings: Settings & Kept;
  readonly rateBook: RateBook;
  readonly kinds: readonly PartKind[];
  readonly offers: readonly Offer[];
  /** Of each currency, the newest first. */
  readonly exchange: readonly ExchangeRate[];
}

/** Nowhere is it an earlier day. */
const LATEST_ZONE = "Etc/GMT+12";

/** `dayIn`: the day in a time zone, which decides the version of the book. */
export async function shopRows(db: Database, dayIn: (timeZone: string) => IsoDate): Promise<ShopRows> {
  const own = sql`(select ${settingsTable.rateBookId} from ${settingsTable} where ${settingsTable.id} = ${SHOP})`;
  const [[settings], books, kinds, offers, rates] = await db.batch([
    db.select().from(settingsTable).where(eq(settingsTable.id, SHOP)),
    booksSince(db, own, dayIn(LATEST_ZONE)),
    db.select().from(partKindsTable).where(isNull(partKindsTable.withdrawal)).orderBy(asc(partKindsTable.id)),
    db.select().from(offersTable).where(isNull(offersTable.withdrawal)).orderBy(asc(offersTable.id)),
    newestRates(db),
  ]);
  const kept = settings && inForceOn(books, dayIn(settings.timeZone));
  if (!settings || !kept) throw new Error("The database holds no shop settings; run the set-up (npm start or npm run migrate).");
  return {
    settings: withoutNulls(settings),
    rateBook: kept.book,
    kinds: kinds.map((row) => asPartKind(withoutNulls(row))),
    offers: offers.map((row) => asOffer(withoutNulls(row))),
    exchange: rates.map(({ into: _, ...rate }) => rate),
  };
}
