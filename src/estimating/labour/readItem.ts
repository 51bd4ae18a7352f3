/** A work item with everything about it that does not depend on what else is charged, and how long one count of it takes, before the condition grade. */
import { type Book, type Entry, known } from "../book.js";
import type { LabourClass, LeadStandard, Operation, PartKind, PartType, RateBook, WorkItem } from "../input.js";
import type { MapReading } from "../teardown/map.js";
import { inMilli, type LabourLine, plus, sumOfTimes, type Times, times } from "./times.js";

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

export interface ItemPart {
  readonly type: Entry<PartType>;
  readonly kind?: PartKind;
  readonly name: string;
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
  const parts = new Map<string, ItemPart>();
  const standard = new Map<string, ItemTimes>();
  const keyOf = (part: WorkItem["part"]) =>
    part === undefined ? "" : "kind" in part ? `kind ${part.kind}` : `type ${part.type}`;

  const partOf = (part: NonNullable<WorkItem["part"]>): ItemPart => {
    const ready = parts.get(keyOf(part));
    if (ready) return ready;
    const kind = "kind" in part ? known(book.kinds, part.kind).is : undefined;
    const type = known(book.partTypes, "kind" in part ? kind!.type : part.type);
    const read = { type, ...(kind && { kind }), name: kind?.name ?? type.is.name };
    parts.set(keyOf(part), read);
    return read;
  };

  const read = (item: WorkItem): ItemTimes => {
    const operation = known(book.operations, item.operation);
    const part = item.part && partOf(item.part);
    const common = { operation, ...(part && { part }), setup: inMilli(operation.is.setup) };
    const entries = [`/operations/${operation.at}`];
    if (item.minutes) return { ...common, each: inMilli(item.minutes), entries };
    const handling = inMilli(operation.is.unit);
    if (operation.is.sort !== "replacement" || !part) return { ...common, each: handling, entries };
    const { is: type, at } = part.type;
    entries.push(`/partTypes/${at}`);
    if (type.leads === undefined) return { ...common, each: plus(handling, inMilli(type.minutes!)), entries };
    const leads = part.kind?.leads ?? type.leads;
    return { ...common, each: plus(handling, times(lead, leads)), leads, entries: [...entries, "/leads"] };
  };

  return (item) => {
    if (item.minutes) return read(item);
    const key = `${item.operation} ${keyOf(item.part)}`;
    const ready = standard.get(key) ?? read(item);
    standard.set(key, ready);
    return ready;
  };
}
