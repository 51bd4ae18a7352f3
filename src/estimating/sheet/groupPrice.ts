/** A group's price is a difference of two whole estimates, with it and without it, everything else as chosen; never a sum of lines. */
import type { Minor } from "../input.js";
import type { Group } from "../labour/groups.js";
import type { ReadItem } from "../labour/readItem.js";
import { fromMilli } from "../money/scales.js";
import { nameOf } from "../pricing/nameOf.js";
import { price, priceWith } from "../pricing/price.js";
import { isFixed, quotedTotals } from "../pricing/quote.js";
import { milliTaken } from "../pricing/timeTaken.js";
import type { Priced, Workings } from "../pricing/workings.js";
import type { GroupPrice, Totals } from "../sheet.js";

/** `base`: as counted; `totals`: as quoted. Possible work is covered by a fixed price. */
export function groupPrice({ id, ids, items }: Group, base: Priced, totals: Totals, workings: Workings): GroupPrice {
  const certainty = items[0]!.item.certainty;
  const within = certainty.is === "optional" && certainty.chosen;
  const other = within ? price(workings, without(base.items, items), base.visit) : priceWith(base, items, workings);
  const [more, less] = within ? [base, other] : [other, base];
  const covered = certainty.is === "if found" && isFixed(base.visit.policy);
  const others = covered ? totals : quotedTotals(other, workings);
  const sign = within ? -1 : 1;
  const reason = items.find(({ item }) => item.reason)?.item.reason;
  return {
    id,
    items: ids,
    names: items.map((read) => nameOf(read, workings)),
    ...(reason && { reason }),
    ...(certainty.is === "if found" && { probability: certainty.probability }),
    ...(certainty.is === "optional" && { chosen: certainty.chosen }),
    price: sign * (others.total - totals.total) + 0,
    net: sign * (others.withoutTax - totals.withoutTax) + 0,
    minutes: fromMilli(taken(more) - taken(less)),
    ...(covered && { covered }),
  };
}

/** What charging one more item adds to the total, tax included. */
export const marginalPrice = (read: ReadItem, base: Priced, workings: Workings): Minor =>
  price(workings, [...base.items, read], base.visit).totals.total - base.totals.total;

function without(items: readonly ReadItem[], left: readonly ReadItem[]): ReadItem[] {
  const out = new Set(left);
  return items.filter((read) => !out.has(read));
}

function taken(priced: Priced): number {
  const { attended, unattended } = milliTaken(priced);
  return attended.likely + unattended;
}
