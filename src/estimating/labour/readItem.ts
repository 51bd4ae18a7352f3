/** A work item with everything about it that does not depend on what else is charged. */
import { type Book, type Entry, known } from "../book.js";
import type { LabourClass, RateBook, WorkItem } from "../input.js";
import type { MapReading } from "../teardown/map.js";
import { type ItemTimes, itemTimes } from "./itemTimes.js";
import type { LabourLine } from "./labourLine.js";

export interface ReadItem extends ItemTimes {
  readonly item: WorkItem;
  /** Place of its assembly in the map; undefined: the unit as a whole. */
  readonly place: number | undefined;
  /** Its place among all items by id, so that the order of the lines cannot change a figure. */
  readonly rank: number;
  /** The same for items that share a set-up: one assembly, one operation. */
  readonly setupKey: string;
  readonly labourClass: Entry<LabourClass>;
  /** Its line by number of set-ups; the same items are priced many times over, once for each option. */
  readonly lines: Map<number, LabourLine>;
}

export function readItems(items: readonly WorkItem[], map: MapReading, book: Book, rateBook: RateBook): ReadItem[] {
  const ranked = [...items].sort((a, b) => (a.id < b.id ? -1 : 1));
  const rank = new Map(ranked.map((item, position) => [item, position]));
  return items.map((item) => {
    const read = itemTimes(item, book, rateBook);
    const place = item.assembly === undefined ? undefined : map.at.get(item.assembly);
    return {
      ...read,
      item,
      place,
      rank: rank.get(item)!,
      setupKey: `${place ?? "unit"} ${read.operation.at}`,
      labourClass: known(book.classes, read.operation.is.labourClass),
      lines: new Map(),
    };
  });
}
