/** One labour line per work item: (set-ups x set-up time + count x unit time) x condition grade, at the rate of the labour class. */
import type { Entry } from "../book.js";
import type { ConditionGrade, RateBook } from "../input.js";
import { fromMilli, priceMilli } from "../money/scales.js";
import { behindOf, flatPriceOf, taxCategoryOf } from "../resolve.js";
import type { Source } from "../sheet.js";
import type { MapReading } from "../teardown/map.js";
import type { ReadItem } from "./readItem.js";
import { chargedMilli, graded, type LabourLine, plus, threeFigures, times } from "./times.js";

/** Ten-thousandths of a minor unit. */
const E4 = 10_000;

export interface LabourContext {
  readonly map: MapReading;
  readonly grade: Entry<ConditionGrade>;
  readonly rateBook: RateBook;
}

/** Unattended time is not multiplied by the condition grade. */
export function labourLine(read: ReadItem, setups: number, context: LabourContext): LabourLine {
  const ready = read.lines.get(setups);
  if (ready) return ready;
  const made = make(read, setups, context);
  read.lines.set(setups, made);
  return made;
}

function make(
  { item, takes, labourClass, place }: ReadItem,
  setups: number,
  { map, grade, rateBook }: LabourContext,
): LabourLine {
  const { operation, part } = takes;
  const { attended, ratePerHour } = labourClass.is;
  const setup = times(takes.setup, setups);
  const bare = plus(setup, times(takes.each, item.count));
  const time = attended ? graded(bare, grade.is.labourPercent) : bare;
  const assembly = place === undefined ? undefined : map.assemblies[place]!;
  const changed = attended && grade.is.labourPercent !== 100;
  const common = {
    minutesEach: fromMilli(takes.each.likely),
    setupMinutes: fromMilli(setup.likely),
    ...(changed && { gradePercent: grade.is.labourPercent }),
  };
  const from: Source[] = [{ is: "item", id: item.id }];
  if (assembly) from.push({ is: "assembly", id: assembly.id, name: assembly.name });
  from.push({ is: "operation", id: operation.is.id, name: operation.is.name });
  for (const entry of takes.entries) from.push({ is: "rate book", entry });
  from.push({ is: "rate book", entry: `/labourClasses/${labourClass.at}` });
  if (changed) from.push({ is: "rate book", entry: `/grades/${grade.at}` });
  const charged = chargedMilli(time, rateBook);
  const behind = behindOf(item);
  const price = flatPriceOf(operation.is);
  return {
    times: time,
    attended,
    labourClass: labourClass.is.id,
    ...(price !== undefined && { flat: true as const }),
    ...(behind !== undefined && { behind }),
    line: {
      id: `labour:${item.id}`,
      sort: operation.is.sort,
      taxClass: "labour",
      taxCategory: taxCategoryOf(operation.is) ?? rateBook.tax.labour,
      ...(assembly && { assembly: { id: assembly.id, name: assembly.name } }),
      operation: { id: operation.is.id, name: operation.is.name },
      ...(part && {
        part: { type: part.type.is.id, ...(part.kind && { kind: part.kind.id }), name: part.name },
      }),
      labourClass: { id: labourClass.is.id, name: labourClass.is.name },
      count: item.count,
      ...((price === undefined || charged > 0) && { minutes: fromMilli(charged) }),
      ...threeFigures(time, rateBook),
      ...(price !== undefined && { unitPriceE4: price * E4 }),
      amount: behind !== undefined ? 0 : price === undefined ? priceMilli(charged, ratePerHour) : price * item.count,
      why:
        price !== undefined
          ? { rule: "fixed price", price, ...(item.service === undefined ? {} : { service: true as const }) }
          : takes.leads === undefined
            ? { rule: "each", ...common, setups }
            : { rule: "leads", leads: takes.leads, ...common },
      from,
    },
  };
}

/**
 * Set-up is once per assembly and operation. Work on the unit as a whole is set up on each board that is counted or named
 * to be opened (by the book, perhaps only replacements), at least once, and never more often than its count. It stands on the line whose item id sorts first; items that bear none are left out.
 * `boards`: counted, or named to be opened.
 */
export function setupsOf(items: readonly ReadItem[], boards: number, rateBook: RateBook): ReadonlyMap<ReadItem, number> {
  const shared = new Map<number, { first: ReadItem; count: number }>();
  for (const read of items) {
    const before = shared.get(read.setupKey);
    if (!before) shared.set(read.setupKey, { first: read, count: read.item.count });
    else {
      before.count += read.item.count;
      if (read.rank < before.first.rank) before.first = read;
    }
  }
  return new Map(
    [...shared.values()].map(({ first, count }) => [
      first,
      first.place === undefined ? Math.min(count, boardsSetUp(first, boards, rateBook)) : 1,
    ]),
  );
}

/** On how many boards work on the unit as a whole may be set up. */
export const boardsSetUp = ({ takes }: ReadItem, boards: number, { billing }: RateBook): number =>
  billing.setUps === "replacements" && takes.operation.is.sort !== "replacement" ? 1 : Math.max(1, boards);
