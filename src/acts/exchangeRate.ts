/** Dated exchange rates of the shop, typed, imported or paid at goods in: what its own currency costs for one of another. */
import { z } from "zod";
import type { ExchangeRate, IsoDate, RateBook } from "../estimating/input.js";
import type { Kept } from "../records/columns.js";
import { type ExchangeRateValue, exchangeRates } from "../records/exchangeRates.js";
import { shopSettings } from "../records/settings.js";
import { faultsIn, shopRateBook } from "./checked.js";
import type { Fault } from "./fault.js";
import { day, exact, line } from "./field.js";
import { adding, type Recorded, replacing, withdrawal, withdrawing } from "./record.js";
import { keptKeys } from "./shapes/resources.js";
import { today } from "./today.js";

export const exchangeRateFields = z.strictObject({
  currency: line("Currency", { most: 3, capitals: true, hint: "Three letters, such as JPY" }).meta({
    description: "ISO 4217",
    example: "JPY",
  }),
  rate: exact("Rate", { hint: "What one of it costs in the shop's currency" }).meta({
    description: "Units of the shop's currency for one of it, as a decimal of at most twelve digits on either side",
    example: "0.0052",
  }),
  on: day("Day of the rate"),
  source: line("Source", { hint: "Where the rate comes from, such as the shop's bank" }),
});

/** `day`: today, which no rate is ahead of. */
export const rateFaults = (value: ExchangeRate, book: RateBook, day: IsoDate): readonly Fault[] =>
  faultsIn({ exchange: [value], asOf: day }, book, "/exchange/0");

export const exchangeRate = {
  one: "exchange rate",
  fields: exchangeRateFields,
  kept: exchangeRateFields
    .extend({ into: z.string().meta({ description: "The shop's currency, ISO 4217" }), ...keptKeys, withdrawal })
    .meta({ id: "ExchangeRateRecord" }),
  rows: exchangeRates,
  settled: async ({ db }, value) => ({ ...value, into: (await shopRateBook(db)).currency }),
  check: async ({ db, now }, { currency, rate, on, source }) => {
    const { timeZone } = await shopSettings(db);
    return rateFaults({ currency, rate, on, source }, await shopRateBook(db), today(now, timeZone));
  },
} satisfies Recorded<ExchangeRateValue, ExchangeRateValue & Kept>;
export const addExchangeRate = adding(exchangeRate);
export const replaceExchangeRate = replacing(exchangeRate);
/** Estimates that froze it keep it. */
export const withdrawExchangeRate = withdrawing(exchangeRate);
