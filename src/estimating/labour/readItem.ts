/** A work item with everything about it that does not depend on what else is charged. */
import { type Book, type Entry, known } from "../book.js";
import type { LabourClass, RateBook, WorkItem } from "../input.js";
import type { MapReading } from "../teardown/map.js";
import { type ItemTimes, itemTimesReader } from "./itemTimes.js";
import type { LabourLine } from "./times.js";

export interface ReadItem {
  readonly item: WorkItem;
  readonly takes: ItemTimes;
  readonly labourClass: Entry<LabourClass>;
  /** Place of its assembly in the map; undefined: the unit as a whole. */
  readonly place: number | undefined;
  /** Its place among all items by id, so that the order of the lines cannot change a figure. */
  readonly rank: number;
  /** The same for items that share a set-up: one assembly, one operation. */
  readonly setupKey: number;
  /** Its line by number of set-ups; the same items are priced many times over, once for each option. */
  readonly lines: Map<number, LabourLine>;
}

export function readItems(items: readonly WorkItem[], map: MapReading, book: Book, rateBook: RateBook): ReadItem[] {
  const ranked = items.map((_, at) => at).sort((a, b) => (items[a]!.id < items[b]!.id ? -1 : 1));
  const rank: number[] = [];
  ranked.forEach((at, position) => {
    rank[at] = position;
  });
  const timesOf = itemTimesReader(book, rateBook);
  return items.map((item, at) => {
    const takes = timesOf(item);
    const { is: operation, at: operationAt } = takes.operation;
    const place = item.assembly === undefined ? undefined : map.at.get(item.assembly);
    return {
      item,
      takes,
      labourClass: known(book.classes, operation.labourClass),
      place,
      rank: rank[at]!,
      setupKey: ((place ?? -1) + 1) * rateBook.operations.length + operationAt,
      lines: new Map(),
    };
  });
}
