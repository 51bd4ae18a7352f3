/** Offers: dated ways to get a part kind, at most one price each. */
import { z } from "zod";
import { MOST_DUTY } from "../estimating/check/catalogue.js";
import type { ExchangeRate, Offer, PartKind, RateBook } from "../estimating/input.js";
import { OFFER_STATES } from "../estimating/lists.js";
import { LIMITS } from "../estimating/problems.js";
import type { Kept } from "../records/columns.js";
import { newestRates } from "../records/exchangeRates.js";
import { type OfferValue, offers } from "../records/offers.js";
import { partKindNamed } from "../records/partKinds.js";
import { faultsIn, shopRateBook } from "./checked.js";
import type { Fault } from "./fault.js";
import { choice, cost, day, decimal, line, maybe, named, share, whole } from "./field.js";
import { adding, type Recorded, replacing, withdrawal, withdrawing } from "./record.js";
import { seenGood } from "./shapes/part.js";
import { keptKeys } from "./shapes/resources.js";

/** What an offer can say, wherever it is said. */
export const PACK_SIZE = { least: 1, most: LIMITS.count };
export const LEAD_DAYS = { least: 0, most: 3650 };
const TARIFF = { least: 0, most: MOST_DUTY, decimals: 4 };

export const offerFields = z.strictObject({
  kind: named("Part kind"),
  source: line("Source"),
  on: day("Day of the offer"),
  price: cost("Price of one pack", { currencyIn: "currency" }),
  currency: line("Currency", { most: 3, capitals: true }).meta({
    description: "ISO 4217: the rate book's, or one that the shop has a rate of",
    example: "GBP",
  }),
  packSize: whole("Pieces in a pack", PACK_SIZE),
  minimumPacks: maybe(whole("Fewest packs", PACK_SIZE)),
  available: maybe(whole("Pieces to be had", { least: 0, most: LIMITS.count })),
  leadDays: whole("Lead time", { unit: "days", ...LEAD_DAYS }),
  state: choice("State", OFFER_STATES),
  shareGood: maybe(share("Share good", { hint: "Pieces in a hundred, from 1 to 100", help: "scarce-parts#share-good" })),
  seenGood: maybe(seenGood),
  freight: maybe(cost("Freight", { currencyIn: "currency" })),
  dutyPercent: maybe(decimal("Duty", { unit: "%", hint: "Of the price", ...TARIFF })),
  importTaxPercent: maybe(
    decimal("Import tax", { unit: "%", hint: "Of price and duty. Empty where you get it back.", ...TARIFF }),
  ),
  parcelFee: maybe(cost("Fee for the parcel", { currencyIn: "", hint: "In the shop's currency, once per source" })),
  pullMinutes: maybe(decimal("Minutes to pull one", { unit: "min", least: 0, most: LIMITS.minutes, decimals: 3 })),
});

/** Nothing where the kind is unknown: that is said of the key itself. */
export const offerFaults = (
  value: OfferValue,
  kind: PartKind | undefined,
  book: RateBook,
  rates: readonly ExchangeRate[] = [],
): readonly Fault[] =>
  kind
    ? faultsIn({ kinds: [kind], offers: [{ ...value, id: "new" } as Offer], exchange: newestOnes(rates) }, book, "/offers/0")
    : [];

/** One a currency; the newest comes first. */
export const newestOnes = <Rate extends ExchangeRate>(rates: readonly Rate[]): Rate[] => [
  ...new Map(rates.toReversed().map((rate) => [rate.currency, rate])).values(),
];

export const offer = {
  one: "offer",
  fields: offerFields,
  kept: offerFields
    .extend({
      ...keptKeys,
      donor: maybe(z.string()).meta({ description: "Id of the donor unit that the pieces stand in" }),
      withdrawal,
    })
    .meta({ id: "OfferRecord" }),
  rows: offers,
  links: { kind: partKindNamed },
  settled: async ({ db }, value) => ({ ...value, kind: (await partKindNamed(db, value.kind))?.id ?? value.kind }),
  check: async ({ db }, value) => {
    const book = await shopRateBook(db);
    const rates = value.currency === book.currency ? [] : await newestRates(db);
    return offerFaults(value, await partKindNamed(db, value.kind), book, rates);
  },
} satisfies Recorded<OfferValue, OfferValue & Kept>;
export const addOffer = adding(offer);
export const replaceOffer = replacing(offer);
/** By a page, which leaves what was seen of such pieces. */
export const changeOffer = replacing(offer, { ...replaceOffer, fields: offerFields.omit({ seenGood: true }) });
/** The same offer, still made on that day. */
export const confirmOffer = replacing(offer, {
  ...{ name: "confirmOffer", title: "Confirm an offer: the same, on another day and at its price then" },
  fields: z.strictObject({ on: offerFields.shape.on, price: offerFields.shape.price }).meta({ id: "ConfirmOffer" }),
});
/** Orders and goods that rest on it keep it. */
export const withdrawOffer = withdrawing(offer);
