/** The engine's own word on a part of an input: the part is put into an otherwise empty estimate and its problems are moved home. */

import { check } from "../estimating/check/check.js";
import type { EstimateInput, IsoDate, RateBook } from "../estimating/input.js";
import type { Database } from "../records/database.js";
import { rateBooks } from "../records/rateBooks.js";
import { shopSettings } from "../records/settings.js";
import { engineFaults, type Fault } from "./fault.js";

type Part = Partial<Pick<EstimateInput, "map" | "kinds" | "offers" | "exchange" | "asOf">>;

/** `at` is the JSON pointer of the part within an input. */
export function faultsIn(part: Part, rateBook: RateBook, at: string): Fault[] {
  const input: EstimateInput = {
    schema: 1,
    asOf: "2000-01-01",
    currency: rateBook.currency,
    unit: { maker: "", model: "" },
    items: [],
    rateBook,
    ...part,
  };
  return engineFaults(check(input).filter(({ pointer }) => pointer === at || pointer.startsWith(`${at}/`))).map((fault) => ({
    ...fault,
    pointer: fault.pointer.slice(at.length),
  }));
}

/** The newest version of the book the shop works with; with a day, the one in force on it. */
export async function shopRateBook(db: Database, day?: IsoDate): Promise<RateBook> {
  const { rateBookId } = await shopSettings(db);
  const kept = await (day === undefined ? rateBooks.find(db, rateBookId) : rateBooks.inForce(db, rateBookId, day));
  if (!kept) throw new Error("The shop's rate book is gone.");
  return kept.book;
}
