/** What every estimate is priced against, in one read: settings, the rate book in use, the catalogue and its offers. */
import { asc, desc, eq, isNull, sql } from "drizzle-orm";
import type { Offer, PartKind, RateBook } from "../estimating/input.js";
import type { Kept } from "./columns.js";
import type { Database } from "./database.js";
import { withoutNulls } from "./noun.js";
import { asOffer, offersTable } from "./offers.js";
import { asPartKind, partKindsTable } from "./partKinds.js";
import { rateBooksTable } from "./rateBooks.js";
import { type Settings, SHOP, settingsTable } from "./settings.js";

export interface ShopRows {
  readonly settings: Settings & Kept;
  readonly rateBook: RateBook;
  readonly kinds: readonly PartKind[];
  readonly offers: readonly Offer[];
}

export async function shopRows(db: Database): Promise<ShopRows> {
  const own = sql`(select ${settingsTable.rateBookId} from ${settingsTable} where ${settingsTable.id} = ${SHOP})`;
  const [[settings], [kept], kinds, offers] = await db.batch([
    db.select().from(settingsTable).where(eq(settingsTable.id, SHOP)),
    db
      .select({ book: rateBooksTable.book })
      .from(rateBooksTable)
      .where(eq(rateBooksTable.id, own))
      .orderBy(desc(rateBooksTable.version))
      .limit(1),
    db.select().from(partKindsTable).where(isNull(partKindsTable.withdrawal)).orderBy(asc(partKindsTable.id)),
    db.select().from(offersTable).where(isNull(offersTable.withdrawal)).orderBy(asc(offersTable.id)),
  ]);
  if (!settings || !kept) throw new Error("The database holds no shop settings; run the set-up (npm start or npm run migrate).");
  return {
    settings: withoutNulls(settings),
    rateBook: kept.book,
    kinds: kinds.map((row) => asPartKind(withoutNulls(row))),
    offers: offers.map((row) => asOffer(withoutNulls(row))),
  };
}
