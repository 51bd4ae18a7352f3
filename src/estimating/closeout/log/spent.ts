/** Entries as minutes at a rate and parts at their selling price. Only for entries without problems: a running or unreadable timer counts as nothing. */

import type { LoggedWork } from "../../agreement/workLog.js";
import { type Book, known } from "../../book.js";
import { isDay } from "../../day.js";
import type { EstimateInput, LabourClass, Minor } from "../../input.js";
import { divide } from "../../money/rounding.js";
import { fromMilli, toMilli } from "../../money/scales.js";
import { priceLot } from "../../parts/lot.js";
import { operationIdOf } from "../../resolve.js";
import type { Moment, PartUsed, TimeEntry } from "./workLog.js";

interface Spent {
  readonly entry: TimeEntry;
  readonly milli: number;
  /** Worked at. */
  readonly labourClass: LabourClass;
  /** Minor units per hour. */
  readonly rate: Minor;
}

/** Minor units per hour of a person, where they are not worth the rate of the labour class worked at. */
export type PersonRates = Readonly<Record<string, Minor>>;

/** Thousandths of a minute. */
function milliSpent(entry: TimeEntry): number {
  if ("minutes" in entry) return toMilli(entry.minutes);
  const [from, to] = [readMoment(entry.startedAt), entry.endedAt === undefined ? undefined : readMoment(entry.endedAt)];
  return from === undefined || to === undefined ? 0 : milliOf(to - from);
}

/** Class the entry says, or that of the item's operation, or of access. Undefined: the class, or the operation, is not known. */
export function classWorked(
  { work, labourClass }: Pick<TimeEntry, "work" | "labourClass">,
  { items, rateBook }: Pick<EstimateInput, "items" | "rateBook">,
  book: Book,
): LabourClass | undefined {
  const item = work.is === "item" ? items.find(({ id }) => id === work.id) : undefined;
  const usual = work.is === "item" ? book.operations.get(item ? operationIdOf(item) : "")?.is.labourClass : rateBook.accessClass;
  return book.classes.get(labourClass ?? usual ?? "")?.is;
}

export function spent(entry: TimeEntry, input: EstimateInput, book: Book, rates: PersonRates = {}): Spent {
  const labourClass = classWorked(entry, input, book) ?? known(book.classes, input.rateBook.accessClass).is;
  return { entry, milli: milliSpent(entry), labourClass, rate: rates[entry.person] ?? labourClass.ratePerHour };
}

const SHAPE = /^\d{4}-\d\d-\d\dT([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,3})?)?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/;

/** Milliseconds since 1970; undefined for a text that is no moment, or has no zone. */
export function readMoment(text: Moment): number | undefined {
  if (!SHAPE.test(text) || !isDay(text.slice(0, 10))) return undefined;
  const at = Date.parse(text);
  return Number.isNaN(at) ? undefined : at;
}

/** Thousandths of a minute in this many milliseconds; halves away from zero. */
export const milliOf = (milliseconds: number): number => divide(BigInt(milliseconds), 60n);

/** What a time entry adds, as the agreement measures it (`mayLog`). */
export const timeAsLogged = (entry: TimeEntry): LoggedWork => ({
  ...(entry.work.is === "item" && { item: entry.work.id }),
  minutes: fromMilli(milliSpent(entry)),
  ...(entry.labourClass !== undefined && { labourClass: entry.labourClass }),
});

/** What a part used adds: its selling price, which is what was paid with the rate book's mark-up. */
export const partAsLogged = (used: PartUsed, { rateBook }: Pick<EstimateInput, "rateBook">): LoggedWork => ({
  item: used.item,
  parts: sellingPrice([used], rateBook).amount,
});

/** Pieces bought at one price, as one lot. */
export function sellingPrice(used: readonly Pick<PartUsed, "count" | "paid">[], { parts }: EstimateInput["rateBook"]) {
  const pieces = used.reduce((sum, { count }) => sum + count, 0);
  const { price, per } = used[0]!.paid;
  return priceLot({ way: "guess", pieces, charged: pieces, price, per }, parts);
}
