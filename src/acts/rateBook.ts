/** Rate books: numbered versions that never change; a change is the next version. */
import { z } from "zod";
import type { RateBook } from "../estimating/input.js";
import { PERCENT_SCALE } from "../estimating/money/scales.js";
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
  check: ({ db }, value, old) => wrongInBook(db, value, old?.book),
} satisfies Recorded<RateBookValue, KeptRateBook>;
export const addRateBook = adding(rateBook);
export const replaceRateBook = replacing(rateBook);

/** `old`: the version before. */
export async function wrongInBook(db: Database, value: RateBookValue, old?: RateBook): Promise<readonly Fault[]> {
  return [
    ...faultsIn({}, { ...value, id: "new", version: 1 }, "/rateBook"),
    ...value.labourClasses.flatMap(({ name, ratePerHour, attended }, at) => {
      const detail = `Labour class '${name}', an hour: 0 is no rate for work that somebody attends; give more than 0.`;
      return attended && ratePerHour === 0 ? [{ pointer: `/labourClasses/${at}/ratePerHour`, name: "rate missing", detail }] : [];
    }),
    ...(old && value.inForceFrom < old.inForceFrom ? [startsBefore(value, old)] : []),
    ...(old ? await currencyFaults(db, old.id, value.currency) : []),
  ];
}

/** What was priced since would have been priced by another version. */
function startsBefore({ inForceFrom: from }: RateBookValue, { version, inForceFrom }: RateBook): Fault {
  const detail = `In force from: version ${version} is in force from ${inForceFrom}, and a later one cannot start before it, on ${from}; give ${inForceFrom} or later.`;
  return { pointer: "/inForceFrom", name: "starts too early", detail };
}

/** The book a shop works by stays in the shop's currency. */
async function currencyFaults(db: Database, bookId: string, currency: string): Promise<readonly Fault[]> {
  const shop = await shopSettings(db);
  if (shop.rateBookId !== bookId || shop.currency === currency) return [];
  const detail = `Currency is ${currency}, and the shop works in ${shop.currency} by this rate book; keep ${shop.currency}.`;
  return [{ pointer: "/currency", name: "currency differs", detail }];
}

export interface FirstRates {
  readonly currency: string;
  readonly inForceFrom: string;
  readonly hourlyRate: number;
  /** 0: none. */
  readonly diagnosisFee: number;
  readonly feeCredited: boolean;
  /** Absent: none. */
  readonly tax?: { readonly name: string; readonly percent: number; readonly included: boolean };
}

/**
 * An example's book with a shop's own rates. What the shop has not said is asked of nobody: no minimum, no storage, nothing for bench space.
 * Money that stands for the trade and not for the shop (usual costs of parts, bands, caps) moves by tens to the size of another currency.
 * A mark-up leaves the shop the same whether its prices include tax or not, as parts are sold for less than they cost otherwise.
 */
export function withFirstRates(
  book: RateBook,
  { hourlyRate, diagnosisFee, feeCredited, tax, currency, inForceFrom }: FirstRates,
): RateBook {
  const example = book.labourClasses.find(({ attended }) => attended)?.ratePerHour || hourlyRate;
  const tens = currency === book.currency ? 0 : Math.max(-2, Math.round(Math.log10(hourlyRate / example)));
  const moved = (amount: number) => Math.round(amount * 10 ** tens);
  const { sundries } = book.parts;
  const none = { id: "none", name: "No tax 0 %", percent: 0 };
  const category = tax ? "standard" : none.id;
  const before = book.tax.included ? (book.tax.categories.find(({ id }) => id === book.tax.parts)?.percent ?? 0) : 0;
  const tall = (100 + (tax?.included ? tax.percent : 0)) / (100 + before);
  const marked = (percent: number) => Math.max(0, Math.round(((100 + percent) * tall - 100) * PERCENT_SCALE) / PERCENT_SCALE);
  return {
    ...book,
    ...{ currency, inForceFrom },
    labourClasses: book.labourClasses.map((each) => ({
      ...each,
      ratePerHour: each.attended ? hourlyRate : 0,
      source: each.attended
        ? { basis: "measured here", note: "the shop's own, given at set-up" }
        : { basis: "common practice, no source", note: "nothing asked until you put your own" },
    })),
    billing: { ...book.billing, minimumCharge: 0 },
    partTypes: book.partTypes.map(({ source, ...each }) => ({
      ...{ ...each, typicalCost: moved(each.typicalCost) },
      source: {
        ...source,
        ...(source.note && { note: source.note.replace("is invented (demo)", "is a guess to begin with: put your own") }),
      },
    })),
    parts: {
      ...book.parts,
      markUp: book.parts.markUp.map(({ upTo, percent }) => ({
        percent: marked(percent),
        ...(upTo !== undefined && { upTo: moved(upTo) }),
      })),
      sundries: { ...sundries, ...(sundries.cap !== undefined && { cap: moved(sundries.cap) }) },
    },
    fees: { ...book.fees, diagnosis: { amount: diagnosisFee, creditedOnAgreement: feeCredited }, storagePerDay: 0 },
    tax: {
      ...book.tax,
      included: tax?.included ?? false,
      categories: [...(tax ? [{ id: category, name: tax.name, percent: tax.percent }] : []), none],
      ...{ labour: category, parts: category, freight: category, fees: category },
    },
  };
}
