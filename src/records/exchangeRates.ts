/** What the shop reckons other currencies at: dated rates, each with where it comes from. The newest of a currency on or before a day counts. */
import { desc, isNull, sql } from "drizzle-orm";
import { index, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { ExchangeRate } from "../estimating/input.js";
import { currencyCodes } from "../estimating/money/currency.js";
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

/** Rates into the currency the shop works in, newest first; each currency is looked up in the index, however many rates there are. */
export function newestRates(db: Database) {
  const { id, currency, rate, on, source, into, updatedAt } = exchangeRatesTable;
  const codes = JSON.stringify(currencyCodes());
  const newest = sql`select "r"."id" from ${exchangeRatesTable} "r"
    where "r"."into_currency" = (select ${settingsTable.currency} from ${settingsTable} where ${settingsTable.id} = ${SHOP})
      and "r"."currency" = json_each.value and "r"."withdrawal" is null
    order by "r"."quoted_on" desc, "r"."updated_at" desc limit ${NEWEST}`;
  return db
    .select({ currency, rate, on, source, into })
    .from(exchangeRatesTable)
    .innerJoin(sql`json_each(${codes})`, sql`${id} in (${newest})`)
    .orderBy(currency, desc(on), desc(updatedAt));
}
