/** A work item with everything about it that does not depend on what else is charged, and how long one count of it takes, before the condition grade. */
import { type Book, type Entry, known } from "../book.js";
import type { LabourClass, LeadStandard, Operation, PartKind, PartPrice, PartType, RateBook, WorkItem } from "../input.js";
import { behindOf, operationIdOf, partOf as partTaken, resolvedFrom } from "../resolve.js";
import type { MapReading } from "../teardown/map.js";
import { inMilli, type LabourLine, plus, sumOfTimes, type Times, times } from "./times.js";

export interface ReadItem {
  readonly item: WorkItem;
  readonly takes: ItemTimes;
  readonly labourClass: Entry<LabourClass>;
  /** Place of its assembly in the map; undefined: the unit as a whole. */
  readonly place: number | undefined;
  /** Its place among all items by id, those behind a service last, so that the order of the lines cannot change a figure. */
  readonly rank: number;
  /** The same for items that share a set-up: one assembly, one operation. */
  readonly setupKey: number;
  /** Its line by number of set-ups; the same items are priced many times over, once for each option. */
  readonly lines: Map<number, LabourLine>;
}

export function readItems(items: readonly WorkItem[], map: MapReading, book: Book, rateBook: RateBook): ReadItem[] {
  const before = (a: WorkItem, b: WorkItem) =>
    Number(behindOf(a) !== undefined) - Number(behindOf(b) !== undefined) || (a.id < b.id ? -1 : 1);
  const ranked = items.map((_, at) => at).sort((a, b) => before(items[a]!, items[b]!));
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

export interface ItemPart {
  readonly type: Entry<PartType>;
  readonly kind?: PartKind;
  readonly name: string;
  /** Of this line alone. */
  readonly price?: PartPrice;
  /** Taken by work behind a service, so that it bears no charge. */
  readonly behind?: true;
}

/** Of one count, and the set-up, with the figures that say so. */
interface ItemTimes {
  readonly operation: Entry<Operation>;
  /** The same object for the same part. */
  readonly part?: ItemPart;
  readonly setup: Times;
  readonly each: Times;
  /** Soldered leads that `each` derives from. */
  readonly leads?: number;
  /** JSON pointers into the rate book. */
  readonly entries: readonly string[];
}

export const perLead = ({ desolder, clear, fit, solder, inspect }: LeadStandard): Times =>
  sumOfTimes([desolder, clear, fit, solder, inspect].map(inMilli));

/** Unit time = the item's own minutes, or the operation's, and for a replacement the part's on top: per lead, or per piece. */
function itemTimesReader(book: Book, rateBook: RateBook): (item: WorkItem) => ItemTimes {
  const lead = perLead(rateBook.leads);
  const { operations: given, partTypes: givenTypes } = resolvedFrom(rateBook);
  const parts = new Map<string, ItemPart>();
  const standard = new Map<string, ItemTimes>();
  const keyOf = (item: WorkItem) => {
    const part = partTaken(item);
    const taken = part === undefined ? "" : "kind" in part ? `kind ${part.kind}` : `type ${part.type}`;
    if (behindOf(item) !== undefined) return `${taken} behind`;
    return item.partPrice ? `${taken} at ${item.id}` : taken;
  };

  const partOf = (item: WorkItem): ItemPart | undefined => {
    const part = partTaken(item);
    const ready = parts.get(keyOf(item));
    if (ready || !part) return ready;
    const kind = "kind" in part ? known(book.kinds, part.kind).is : undefined;
    const type = known(book.partTypes, "kind" in part ? kind!.type : part.type);
    const read = {
      type,
      ...(kind && { kind }),
      name: kind?.name ?? type.is.name,
      ...(item.partPrice && { price: item.partPrice }),
      ...(behindOf(item) !== undefined && { behind: true as const }),
    };
    parts.set(keyOf(item), read);
    return read;
  };

  const read = (item: WorkItem): ItemTimes => {
    const operation = known(book.operations, operationIdOf(item));
    const part = partOf(item);
    const common = { operation, ...(part && { part }), setup: inMilli(operation.is.setup) };
    const own = operation.at >= given;
    const entries = own ? [] : [`/operations/${operation.at}`];
    if (item.minutes) return { ...common, each: inMilli(item.minutes), entries };
    const handling = inMilli(operation.is.unit);
    if (operation.is.sort !== "replacement" || !part) return { ...common, each: handling, entries };
    const { is: type, at } = part.type;
    if (at < givenTypes) entries.push(`/partTypes/${at}`);
    if (type.leads === undefined) return { ...common, each: plus(handling, inMilli(type.minutes!)), entries };
    const leads = part.kind?.leads ?? type.leads;
    return { ...common, each: plus(handling, times(lead, leads)), leads, entries: [...entries, "/leads"] };
  };

  return (item) => {
    if (item.minutes) return read(item);
    const key = `${item.operation} ${keyOf(item)}`;
    const ready = standard.get(key) ?? read(item);
    standard.set(key, ready);
    return ready;
  };
}
