/**
 * Where to buy so many pieces: the cheapest of every offer that can supply them all and of the offers mixed, cheapest piece first.
 * As each way costs more for more pieces, one more piece never lowers the price.
 */
import type { Minor, Offer } from "../input.js";
import type { Lot } from "./lot.js";
import { byUnitCost, capacity, wholePacks } from "./offers.js";

/** `charge` is what the owner would pay for the lots, freight included. Pieces that nobody offers are left out. */
export function chooseLots(
  pieces: number,
  offers: readonly Offer[],
  whole: boolean,
  charge: (lots: readonly Lot[]) => Minor,
): readonly Lot[] {
  const lot = (offer: Offer, taken: number): Lot => ({
    way: "offer",
    offer,
    pieces: taken,
    charged: whole ? wholePacks(offer, taken) : taken,
    price: offer.price,
    per: offer.packSize,
  });
  const cheapestFirst = [...offers].sort(byUnitCost);
  const alone = cheapestFirst.filter((offer) => capacity(offer) >= pieces).map((offer) => [lot(offer, pieces)]);
  const mixed: Lot[] = [];
  let left = pieces;
  for (const offer of cheapestFirst) {
    const taken = Math.min(left, capacity(offer));
    if (taken > 0) mixed.push(lot(offer, taken));
    left -= taken;
  }
  const slowest = (lots: readonly Lot[]) => Math.max(...lots.map(({ offer }) => offer?.leadDays ?? 0));
  const id = (lots: readonly Lot[]) => lots[0]?.offer?.id ?? "";
  const [best] = [...alone, mixed]
    .map((lots) => ({ lots, price: charge(lots) }))
    .sort(
      (a, b) =>
        a.price - b.price ||
        a.lots.length - b.lots.length ||
        slowest(a.lots) - slowest(b.lots) ||
        (id(a.lots) < id(b.lots) ? -1 : 1),
    );
  return best?.lots ?? [];
}
