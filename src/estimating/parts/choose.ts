/**
 * Where to buy so many pieces: the cheapest of every offer that can supply them all and of the offers mixed, cheapest piece first.
 * As each way costs more for more pieces, one more piece never lowers the price.
 */
import type { Minor, Offer } from "../input.js";
import type { Lot } from "./lot.js";
import { capacity, wholePacks } from "./offers.js";

/**
 * `offers` with the cheapest piece first; `charge` is what the owner would pay for the lots, freight included.
 * Pieces that nobody offers are left out. Of equal charges the fewest lots win, then the quickest, then the cheapest piece.
 */
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
  const mixed: Lot[] = [];
  let left = pieces;
  for (const offer of offers) {
    const taken = Math.min(left, capacity(offer));
    if (taken > 0) mixed.push(lot(offer, taken));
    left -= taken;
  }
  const alone = offers.filter((offer) => capacity(offer) >= pieces).map((offer) => [lot(offer, pieces)]);
  const slowest = (lots: readonly Lot[]) => Math.max(...lots.map(({ offer }) => offer?.leadDays ?? 0));
  // A mix of one offer is among those alone.
  const [best] = [...alone, ...(mixed.length === 1 && alone.length > 0 ? [] : [mixed])]
    .map((lots) => ({ lots, charge: charge(lots) }))
    .sort((a, b) => a.charge - b.charge || a.lots.length - b.lots.length || slowest(a.lots) - slowest(b.lots));
  return best?.lots ?? [];
}
