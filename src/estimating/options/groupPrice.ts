/** A group's price is a difference of two whole estimates, with it and without it, everything else as chosen; never a sum of lines. */
import type { Minor } from "../input.js";
import type { ReadItem } from "../labour/readItem.js";
import { fromMilli } from "../money/scales.js";
import { type Priced, price } from "../price.js";
import type { GroupPrice } from "../sheet.js";
import { milliTaken } from "../terms/timeTaken.js";
import type { Workings } from "../workings.js";
import type { Group } from "./groups.js";

export function groupPrice({ id, ids, items }: Group, base: Priced, workings: Workings): GroupPrice {
  const certainty = items[0]!.item.certainty;
  const within = certainty.is === "optional" && certainty.chosen;
  const other = price(workings, within ? without(base.items, items) : [...base.items, ...items], base.visit);
  const [more, less] = within ? [base, other] : [other, base];
  const reason = items.find(({ item }) => item.reason)?.item.reason;
  return {
    id,
    items: ids,
    names: items.map((read) => nameOf(read, workings)),
    ...(reason && { reason }),
    ...(certainty.is === "if found" && { probability: certainty.probability }),
    ...(certainty.is === "optional" && { chosen: certainty.chosen }),
    price: more.totals.total - less.totals.total,
    net: more.totals.withoutTax - less.totals.withoutTax,
    minutes: fromMilli(taken(more) - taken(less)),
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

function nameOf({ item, place, takes }: ReadItem, { map }: Workings): string {
  const { operation, part } = takes;
  const where = place === undefined ? "" : `${map.assemblies[place]!.name}: `;
  const what = part ? `, ${part.name}` : "";
  return `${where}${operation.is.name}${what}${item.count > 1 ? ` × ${item.count}` : ""}`;
}
