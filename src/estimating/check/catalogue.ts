/** Part kinds and offers. */
import type { Book } from "../book.js";
import { isDay } from "../day.js";
import type { EstimateInput, Offer, PartKind } from "../input.js";
import { decimalsOf } from "../money/currency.js";
import { readRate } from "../money/exchange.js";
import { landed, rateFor } from "../money/landed.js";
import { LIMITS, type Problem } from "../problems.js";
import { amount, checkDay, count, ifGiven, minutes, NONE, percent, repeated, unknown } from "./figures.js";
import { found, inside, part, pointerTo, type Spot, spot } from "./spot.js";

/** More percent than any tariff has. */
export const MOST_DUTY = 1000;
/** More leads than any part has. */
export const MOST_LEADS = 1000;

export function checkCatalogue(input: EstimateInput, book: Book): Problem[] {
  const { kinds = [], offers = [] } = input;
  const kindSpots = kinds.map(({ name }, at) => spot(() => `Part kind '${name}'`, "kinds", at));
  const offerSpots = offers.map(({ kind, source }, at) =>
    spot(() => `Offer of '${book.kinds.get(kind)?.is.name ?? kind}' from ${source}`, "offers", at),
  );
  return [
    ...kinds.flatMap((kind, at) => checkKind(kind, kindSpots[at]!, book)),
    ...repeated(
      kinds,
      ({ id }) => id,
      "part kind",
      (at) => inside(kindSpots[at]!, ["id"]),
    ),
    ...offers.flatMap((offer, at) => checkOffer(offer, offerSpots[at]!, book, input)),
    ...repeated(
      offers,
      ({ id }) => id,
      "offer",
      (at) => inside(offerSpots[at]!, ["id"]),
    ),
    ...checkExchange(input),
  ];
}

function checkKind({ type, leads, stock }: PartKind, here: Spot, { partTypes }: Book): readonly Problem[] {
  return [
    ...unknown("part type unknown", type, partTypes, inside(here, ["type"])),
    ...ifGiven(leads, (value) => count(value, part(here, "leads", "leads"), MOST_LEADS)),
    ...ifGiven(stock, (value) => count(value, part(here, "stock", "stock"), LIMITS.stock)),
  ];
}

function checkExchange({ exchange = [], currency, asOf }: EstimateInput): Problem[] {
  const spots = exchange.map(({ currency: code }, at) => spot(() => `Exchange rate of ${code}`, "exchange", at));
  return [
    ...exchange.flatMap(({ currency: code, rate, on }, at): readonly Problem[] => {
      const here = spots[at]!;
      return [
        ...(decimalsOf(code) === undefined
          ? [{ name: "currency unknown", code, pointer: pointerTo(inside(here, ["currency"])) } as const]
          : NONE),
        ...(code === currency
          ? [{ name: "exchange rate of itself", code, ...found(inside(here, ["currency"])) } as const]
          : NONE),
        ...(readRate(rate)
          ? NONE
          : [{ name: "exchange rate unreadable", value: rate, ...found(inside(here, ["rate"])) } as const]),
        ...checkDay(on, inside(here, ["on"])),
        ...(isDay(on) && on > asOf ? [{ name: "exchange rate ahead", on, asOf, ...found(inside(here, ["on"])) } as const] : NONE),
      ];
    }),
    ...repeated(
      exchange,
      (one) => one.currency,
      "exchange rate",
      (at) => inside(spots[at]!, ["currency"]),
    ),
  ];
}

/** What cannot be reckoned here is told of the rate itself. */
function checkLanded(offer: Offer, here: Spot, input: EstimateInput): readonly Problem[] {
  const rate = rateFor(input, offer.currency);
  if (offer.currency === input.currency ? false : !rate)
    return [{ name: "currency differs", code: offer.currency, expected: input.currency, ...found(inside(here, ["currency"])) }];
  const known = [offer.currency, input.currency].every((code) => decimalsOf(code) !== undefined);
  if (!known || (rate && !readRate(rate.rate))) return NONE;
  const { price, freight = 0, dutyPercent = 0, importTaxPercent = 0 } = offer;
  if (![price, freight].every((value) => Number.isInteger(value) && value <= LIMITS.amount)) return NONE;
  if (![dutyPercent, importTaxPercent].every(Number.isFinite)) return NONE;
  const { price: inAll, freight: carried = 0 } =
    landed({ ...offer, dutyPercent, importTaxPercent, parcelFee: 0 }, input) ?? offer;
  return [
    ...(inAll > LIMITS.amount ? amount(inAll, part(here, "price with duty and import tax", "price")) : NONE),
    ...(carried > LIMITS.amount ? amount(carried, part(here, "freight", "freight")) : NONE),
  ];
}

function checkOffer(offer: Offer, here: Spot, { kinds }: Book, input: EstimateInput): readonly Problem[] {
  const { minimumPacks, available, shareGood, seenGood, freight, pullMinutes, dutyPercent, importTaxPercent, parcelFee } = offer;
  return [
    ...unknown("part kind unknown", offer.kind, kinds, inside(here, ["kind"])),
    ...checkDay(offer.on, inside(here, ["on"])),
    ...checkLanded(offer, here, input),
    ...amount(offer.price, part(here, "price", "price")),
    ...count(offer.packSize, part(here, "pack size", "packSize"), undefined, 1),
    ...ifGiven(minimumPacks, (value) => count(value, part(here, "fewest packs", "minimumPacks"), undefined, 1)),
    ...ifGiven(available, (value) => count(value, part(here, "pieces to be had", "available"))),
    ...count(offer.leadDays, part(here, "days to arrive", "leadDays")),
    ...ifGiven(shareGood, (value) => checkShare(value, inside(here, ["shareGood"]))),
    ...ifGiven(seenGood, ({ good, bad }) => [
      ...count(good, part(here, "pieces seen good", "seenGood", "good")),
      ...count(bad, part(here, "pieces seen bad", "seenGood", "bad")),
    ]),
    ...ifGiven(freight, (value) => amount(value, part(here, "freight", "freight"))),
    ...ifGiven(dutyPercent, (value) => percent(value, part(here, "duty", "dutyPercent"), MOST_DUTY)),
    ...ifGiven(importTaxPercent, (value) => percent(value, part(here, "import tax", "importTaxPercent"), MOST_DUTY)),
    ...ifGiven(parcelFee, (value) => amount(value, part(here, "fee for the parcel", "parcelFee"))),
    ...ifGiven(pullMinutes, (value) => minutes(value, part(here, "minutes to pull one", "pullMinutes"))),
  ];
}

export const checkShare = (value: number, at: Spot): readonly Problem[] =>
  value >= LIMITS.leastShare && value <= 1 ? NONE : [{ name: "share good out of range", value, ...found(at) }];
