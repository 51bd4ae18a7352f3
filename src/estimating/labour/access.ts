/**
 * What opening costs: each assembly's removal and refit, and each row of counted boards. A row is priced board by board,
 * so naming its boards changes no figure.
 */
import { type Book, type Entry, known, standardKey } from "../book.js";
import type { Access, Assembly, BoardCount, LabourClass, Minor } from "../input.js";
import { fromMilli, priceMilli } from "../money/scales.js";
import type { Source } from "../sheet.js";
import type { LabourContext } from "./labourLine.js";
import { chargedMilli, graded, inMilli, type LabourLine, NO_TIME, plus, type Times, threeFigures, times } from "./times.js";

export interface Opening {
  readonly remove: Times;
  readonly refit: Times;
  readonly amount: Minor;
  readonly entries: readonly string[];
}

export interface AccessContext extends LabourContext {
  readonly book: Book;
  readonly accessClass: Entry<LabourClass>;
}

export function openingOf({ access }: Pick<Assembly, "access">, { book, grade, accessClass, rateBook }: AccessContext): Opening {
  const bare = accessTimes(access, book);
  const { attended, ratePerHour } = accessClass.is;
  const percent = attended ? grade.is.labourPercent : 100;
  const [remove, refit] = [graded(bare.remove, percent), graded(bare.refit, percent)];
  const entries = [...bare.entries, `/labourClasses/${accessClass.at}`, ...(percent !== 100 ? [`/grades/${grade.at}`] : [])];
  return { remove, refit, amount: priceMilli(chargedMilli(plus(remove, refit), rateBook), ratePerHour), entries };
}

const shared = ({ accessClass, rateBook }: AccessContext) =>
  ({
    sort: "access",
    taxClass: "labour",
    taxCategory: rateBook.tax.labour,
    labourClass: { id: accessClass.is.id, name: accessClass.is.name },
  }) as const;

const sources = (first: Source, entries: readonly string[]): Source[] => [
  first,
  ...entries.map((entry) => ({ is: "rate book", entry }) as const),
  { is: "rule", rule: "access charged once per opening" },
];

export function accessLine({ id, name }: Assembly, opening: Opening, context: AccessContext): LabourLine {
  const time = plus(opening.remove, opening.refit);
  return {
    times: time,
    attended: context.accessClass.is.attended,
    labourClass: context.accessClass.is.id,
    line: {
      id: `access:${id}`,
      ...shared(context),
      assembly: { id, name },
      minutes: fromMilli(chargedMilli(time, context.rateBook)),
      ...threeFigures(time, context.rateBook),
      amount: opening.amount,
      from: sources({ is: "assembly", id, name }, opening.entries),
    },
  };
}

export function boardsLine({ size, mounting, count }: BoardCount, row: number, context: AccessContext): LabourLine {
  const one = openingOf({ access: { by: "standard", size, mounting } }, context);
  const time = times(plus(one.remove, one.refit), count);
  return {
    times: time,
    attended: context.accessClass.is.attended,
    labourClass: context.accessClass.is.id,
    line: {
      id: `access:boards:${row}`,
      ...shared(context),
      count,
      minutes: fromMilli(chargedMilli(plus(one.remove, one.refit), context.rateBook) * count),
      ...threeFigures(time, context.rateBook),
      unitPriceE4: one.amount * 10_000,
      amount: one.amount * count,
      why: {
        rule: "by standard",
        size,
        mounting,
        lowMinutes: fromMilli(one.remove.low + one.refit.low),
        highMinutes: fromMilli(one.remove.high + one.refit.high),
      },
      from: sources({ is: "boards", size, mounting, count }, one.entries),
    },
  };
}

/** How long an assembly's own removal and refit take, and which figures of the rate book say so. */
interface AccessTimes {
  readonly remove: Times;
  readonly refit: Times;
  /** JSON pointers into the rate book. */
  readonly entries: readonly string[];
}

export function accessTimes(access: Access, book: Book): AccessTimes {
  if (access.by === "measured") return { remove: inMilli(access.remove), refit: inMilli(access.refit), entries: [] };
  if (access.by === "standard") {
    const { is, at } = known(book.standards, standardKey(access));
    return { remove: inMilli(is.remove), refit: inMilli(is.refit), entries: [`/accessStandards/${at}`] };
  }
  let [remove, refit] = [NO_TIME, NO_TIME];
  const entries = new Set<string>();
  for (const { kind, count } of access.fasteners) {
    const { is, at } = known(book.fasteners, kind);
    remove = plus(remove, times(inMilli(is.remove), count));
    refit = plus(refit, times(inMilli(is.refit), count));
    entries.add(`/fasteners/${at}`);
  }
  return { remove, refit, entries: [...entries] };
}
