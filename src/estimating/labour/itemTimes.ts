/** How long one count of an item takes, and its set-up, before the condition grade; with the figures that say so. */
import { type Book, type Entry, known } from "../book.js";
import type { LeadStandard, Operation, PartKind, PartType, RateBook, WorkItem } from "../input.js";
import { inMilli, plus, sumOfTimes, type Times, times } from "./times.js";

export interface ItemPart {
  readonly type: Entry<PartType>;
  readonly kind?: PartKind;
  readonly name: string;
}

export interface ItemTimes {
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
export function itemTimesReader(book: Book, rateBook: RateBook): (item: WorkItem) => ItemTimes {
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
