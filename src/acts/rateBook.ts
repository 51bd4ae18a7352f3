/** Rate books: numbered versions that never change; a change is the next version. */
import { z } from "zod";
import { type KeptRateBook, type RateBookValue, rateBooks } from "../records/rateBooks.js";
import { faultsIn } from "./checked.js";
import { adding, type Recorded, replacing } from "./record.js";
import { rateBook as whole } from "./shapes/rateBook.js";
import { keptKeys } from "./shapes/resources.js";

const { id: _, version: __, ...keys } = whole.shape;

export const rateBook = {
  one: "rate book",
  fields: z.strictObject(keys),
  kept: z.strictObject({ ...keptKeys, book: whole }).meta({ id: "RateBookRecord" }),
  rows: rateBooks,
  check: async (_desk, value) => faultsIn({}, { ...value, id: "new", version: 1 }, "/rateBook"),
} satisfies Recorded<RateBookValue, KeptRateBook>;
export const addRateBook = adding(rateBook);
export const replaceRateBook = replacing(rateBook);
