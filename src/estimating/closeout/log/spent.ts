/** Time entries as minutes at a rate. Only for entries without problems: a running or unreadable timer counts as nothing. */
import { type Book, known } from "../../book.js";
import type { EstimateInput, LabourClass, Minor } from "../../input.js";
import { toMilli } from "../../money/scales.js";
import { milliOf, readMoment } from "./moment.js";
import type { TimeEntry } from "./workLog.js";

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
export function milliSpent(entry: TimeEntry): number {
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
  const operation = work.is === "item" ? items.find(({ id }) => id === work.id)?.operation : undefined;
  const usual = work.is === "item" ? book.operations.get(operation ?? "")?.is.labourClass : rateBook.accessClass;
  return book.classes.get(labourClass ?? usual ?? "")?.is;
}

export function spent(entry: TimeEntry, input: EstimateInput, book: Book, rates: PersonRates = {}): Spent {
  const labourClass = classWorked(entry, input, book) ?? known(book.classes, input.rateBook.accessClass).is;
  return { entry, milli: milliSpent(entry), labourClass, rate: rates[entry.person] ?? labourClass.ratePerHour };
}
