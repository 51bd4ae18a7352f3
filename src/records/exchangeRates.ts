/** What the shop reckons other currencies at: dated rates, each with where it comes from. The newest of a currency on or before a day counts. */
import { and, eq, isNull, sql } from "drizzle-orm";
import { index, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { ExchangeRate } from "../estimating/input.js";
import { keptColumns, type Withdrawal, withdrawalColumn } from "./columns.js";
import type { Database } from "./database.js";
import { noun } from "./noun.js";
import { SHOP, settingsTable } from "./settings.js";

/** `into`: the shop's currency, which the rate is of. */
export type ExchangeRateValue = ExchangeRate & { readonly into: string; readonly withdrawal?: Withdrawal };

export const exchangeRatesTable = sqliteTable(
  "exchange_rates",
  {
    ...keptColumns(),
    currency: text("currency").notNull(),
    into: text("into_currency").notNull(),
    rate: text("rate").notNull(),
    on: text("quoted_on").notNull(),
    source: text("source").notNull(),
    ...withdrawalColumn(),
  },
  (table) => [index("exchange_rates_currency").on(table.into, table.currency, table.on)],
);

export const exchangeRates = noun<ExchangeRateValue>(exchangeRatesTable, isNull(exchangeRatesTable.withdrawal));

/** Of each currency, so many of the newest: an estimate may be of a day before the last. */
const NEWEST = 20;

/** Rates into the currency the shop works in, newest first. */
export function newestRates(db: Database) {
  const { currency, rate, on, source, into, updatedAt, withdrawal } = exchangeRatesTable;
  const own = sql`(select ${settingsTable.currency} from ${settingsTable} where ${settingsTable.id} = ${SHOP})`;
  const place = sql<number>`row_number() over (partition by ${currency} order by ${on} desc, ${updatedAt} desc)`.as("place");
  const placed = db
    .select({ currency, rate, on, source, into, place })
    .from(exchangeRatesTable)
    .where(and(eq(into, own), isNull(withdrawal)))
    .as("placed");
  return db
    .select({ currency: placed.currency, rate: placed.rate, on: placed.on, source: placed.source, into: placed.into })
    .from(placed)
    .where(sql`${placed.place} <= ${NEWEST}`)
    .orderBy(placed.currency, sql`${placed.place}`);
}
