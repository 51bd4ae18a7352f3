/** Rate books: numbered versions that never change; a change is the next version. */
import { z } from "zod";
import type { Database } from "../records/database.js";
import { type KeptRateBook, type RateBookValue, rateBooks } from "../records/rateBooks.js";
import { shopSettings } from "../records/settings.js";
import { faultsIn } from "./checked.js";
import type { Fault } from "./fault.js";
import { adding, type Recorded, replacing } from "./record.js";
import { rateBook as whole } from "./shapes/rateBook.js";
import { keptKeys } from "./shapes/resources.js";

const { id: _, version: __, ...keys } = whole.shape;

export const rateBook = {
  one: "rate book",
  fields: z.strictObject(keys),
  kept: z.strictObject({ ...keptKeys, book: whole }).meta({ id: "RateBookRecord" }),
  rows: rateBooks,
  check: async ({ db }, value, old) => [
    ...faultsIn({}, { ...value, id: "new", version: 1 }, "/rateBook"),
    ...(old ? await currencyFaults(db, old.id, value.currency) : []),
  ],
} satisfies Recorded<RateBookValue, KeptRateBook>;
export const addRateBook = adding(rateBook);
export const replaceRateBook = replacing(rateBook);

/** The book a shop works by stays in the shop's currency. */
async function currencyFaults(db: Database, bookId: string, currency: string): Promise<readonly Fault[]> {
  const shop = await shopSettings(db);
  if (shop.rateBookId !== bookId || shop.currency === currency) return [];
  const detail = `Currency is ${currency}, and the shop works in ${shop.currency} by this rate book; keep ${shop.currency}.`;
  return [{ pointer: "/currency", name: "currency differs", detail }];
}
