/** Part kinds and offers. */
import type { Book } from "../book.js";
import type { EstimateInput, Offer, PartKind } from "../input.js";
import { LIMITS, type Problem } from "../problems.js";
import { amount, checkDay, count, ifGiven, minutes, NONE, repeated, unknown } from "./figures.js";
import { found, inside, part, type Spot, spot } from "./spot.js";

/** More leads than any part has. */
export const MOST_LEADS = 1000;

export function checkCatalogue({ kinds = [], offers = [], currency }: EstimateInput, book: Book): Problem[] {
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
    ...offers.flatMap((offer, at) => checkOffer(offer, offerSpots[at]!, book, currency)),
    ...repeated(
      offers,
      ({ id }) => id,
      "offer",
      (at) => inside(offerSpots[at]!, ["id"]),
    ),
  ];
}

function checkKind({ type, leads, stock }: PartKind, here: Spot, { partTypes }: Book): readonly Problem[] {
  return [
    ...unknown("part type unknown", type, partTypes, inside(here, ["type"])),
    ...ifGiven(leads, (value) => count(value, part(here, "leads", "leads"), MOST_LEADS)),
    ...ifGiven(stock, (value) => count(value, part(here, "stock", "stock"), LIMITS.stock)),
  ];
}

function checkOffer(offer: Offer, here: Spot, { kinds }: Book, currency: string): readonly Problem[] {
  const { minimumPacks, available, shareGood, seenGood, freight, pullMinutes } = offer;
  return [
    ...unknown("part kind unknown", offer.kind, kinds, inside(here, ["kind"])),
    ...checkDay(offer.on, inside(here, ["on"])),
    ...(offer.currency === currency
      ? NONE
      : [{ name: "currency differs", code: offer.currency, expected: currency, ...found(inside(here, ["currency"])) } as const]),
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
    ...ifGiven(pullMinutes, (value) => minutes(value, part(here, "minutes to pull one", "pullMinutes"))),
  ];
}

export const checkShare = (value: number, at: Spot): readonly Problem[] =>
  value > 0 && value <= 1 ? NONE : [{ name: "share good out of range", value, ...found(at) }];
