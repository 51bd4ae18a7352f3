/** How long one count of an item takes, and its set-up, before the condition grade; with the figures that say so. */
import { type Book, type Entry, known } from "../book.js";
import type { LeadStandard, Operation, PartKind, PartType, RateBook, WorkItem } from "../input.js";
import { inMilli, plus, sumOfTimes, type Times, times } from "./times.js";

export interface ItemTimes {
  readonly operation: Entry<Operation>;
  readonly part?: { readonly type: Entry<PartType>; readonly kind?: PartKind };
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
export function itemTimes(item: WorkItem, book: Book, rateBook: RateBook): ItemTimes {
  const operation = known(book.operations, item.operation);
  const setup = inMilli(operation.is.setup);
  const part = item.part && partOf(item.part, book);
  const base = { operation, ...(part && { part }), setup };
  const operationEntry = `/operations/${operation.at}`;
  if (item.minutes) return { ...base, each: inMilli(item.minutes), entries: [operationEntry] };
  const handling = inMilli(operation.is.unit);
  if (operation.is.sort !== "replacement" || !part) return { ...base, each: handling, entries: [operationEntry] };
  const { is: type, at } = part.type;
  const entries = [operationEntry, `/partTypes/${at}`];
  if (type.leads === undefined) return { ...base, each: plus(handling, inMilli(type.minutes!)), entries };
  const leads = part.kind?.leads ?? type.leads;
  return { ...base, each: plus(handling, times(perLead(rateBook.leads), leads)), leads, entries: [...entries, "/leads"] };
}

function partOf(part: NonNullable<WorkItem["part"]>, book: Book): NonNullable<ItemTimes["part"]> {
  if ("type" in part) return { type: known(book.partTypes, part.type) };
  const kind = known(book.kinds, part.kind).is;
  return { type: known(book.partTypes, kind.type), kind };
}
