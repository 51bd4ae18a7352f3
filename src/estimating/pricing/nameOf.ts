/** What a person calls an item. */
import type { ReadItem } from "../labour/readItem.js";
import type { Workings } from "./workings.js";

export function nameOf({ item, place, takes }: ReadItem, { map }: Workings): string {
  const { operation, part } = takes;
  const where = place === undefined ? "" : `${map.assemblies[place]!.name}: `;
  const what = part ? `, ${part.name}` : "";
  return `${where}${operation.is.name}${what}${item.count > 1 ? ` × ${item.count}` : ""}`;
}
