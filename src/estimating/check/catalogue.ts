/** Part kinds and offers. */
import type { Book } from "../book.js";
import { isDay } from "../day.js";
import type { EstimateInput, Offer, PartKind } from "../input.js";
import type { Problem } from "../problems.js";
import { amount, count, minutes } from "./figures.js";
import { repeated, unknown } from "./ids.js";
import { pointer } from "./pointer.js";

/** More leads than any part has. */
export const MOST_LEADS = 1000;

export function checkCatalogue({ kinds = [], offers = [], currency }: EstimateInput, book: Book): Problem[] {
  return [
    ...kinds.flatMap((kind, at) => checkKind(kind, at, book)),
    ...repeated(
      kinds,
      ({ id }) => id,
      "part kind",
      (at) => pointer("kinds", at, "id"),
    ),
    ...offers.flatMap((offer, at) => checkOffer(offer, at, book, currency)),
    ...repeated(
      offers,
      ({ id }) => id,
      "offer",
      (at) => pointer("offers", at, "id"),
    ),
  ];
}

function checkKind({ type, name, leads, stock }: PartKind, at: number, { partTypes }: Book): Problem[] {
  const where = `Part kind '${name}'`;
  return [
    ...unknown("part type unknown", type, partTypes, where, pointer("kinds", at, "type")),
    ...(leads === undefined ? [] : count(leads, `${where}, leads`, pointer("kinds", at, "leads"), MOST_LEADS)),
    ...(stock === undefined ? [] : count(stock, `${where}, stock`, pointer("kinds", at, "stock"))),
  ];
}

function checkOffer(offer: Offer, at: number, { kinds }: Book, currency: string): Problem[] {
  const to = (field: keyof Offer) => pointer("offers", at, field);
  const where = `Offer of '${kinds.get(offer.kind)?.is.name ?? offer.kind}' from ${offer.source}`;
  const { minimumPacks, available, shareGood, freight, pullMinutes } = offer;
  return [
    ...unknown("part kind unknown", offer.kind, kinds, where, to("kind")),
    ...(isDay(offer.on) ? [] : [{ name: "date unreadable", where, value: offer.on, pointer: to("on") } as const]),
    ...(offer.currency === currency
      ? []
      : [{ name: "currency differs", where, code: offer.currency, expected: currency, pointer: to("currency") } as const]),
    ...amount(offer.price, `${where}, price`, to("price")),
    ...count(offer.packSize, `${where}, pack size`, to("packSize"), undefined, 1),
    ...(minimumPacks === undefined ? [] : count(minimumPacks, `${where}, fewest packs`, to("minimumPacks"), undefined, 1)),
    ...(available === undefined ? [] : count(available, `${where}, pieces to be had`, to("available"))),
    ...count(offer.leadDays, `${where}, days to arrive`, to("leadDays")),
    ...(shareGood === undefined || (shareGood > 0 && shareGood <= 1)
      ? []
      : [{ name: "share good out of range", where, value: shareGood, pointer: to("shareGood") } as const]),
    ...(freight === undefined ? [] : amount(freight, `${where}, freight`, to("freight"))),
    ...(pullMinutes === undefined ? [] : minutes(pullMinutes, `${where}, minutes to pull one`, to("pullMinutes"))),
  ];
}
