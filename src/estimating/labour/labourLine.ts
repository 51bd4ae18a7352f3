/** One labour line per work item: (set-ups x set-up time + count x unit time) x condition grade, at the rate of the labour class. */
import type { Entry } from "../book.js";
import type { ConditionGrade, Minor, RateBook } from "../input.js";
import { fromMilli, priceMilli } from "../money/scales.js";
import type { Line, Source, Why } from "../sheet.js";
import type { MapReading } from "../teardown/map.js";
import type { ReadItem } from "./readItem.js";
import { graded, plus, type Times, times } from "./times.js";

export interface LabourLine {
  readonly line: Line;
  readonly times: Times;
  readonly attended: boolean;
  readonly labourClass: string;
}

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

function make(read: ReadItem, setups: number, { map, grade, rateBook }: LabourContext): LabourLine {
  const { item, operation, part, labourClass } = read;
  const { attended, ratePerHour } = labourClass.is;
  const bare = plus(times(read.setup, setups), times(read.each, item.count));
  const time = attended ? graded(bare, grade.is.labourPercent) : bare;
  const amount: Minor = priceMilli(time.likely, ratePerHour);
  const assembly = read.place === undefined ? undefined : map.assemblies[read.place]!;
  const setupMinutes = fromMilli(read.setup.likely);
  const minutesEach = fromMilli(read.each.likely);
  const why: Why =
    read.leads === undefined
      ? { rule: "each", minutesEach, setupMinutes, setups }
      : { rule: "leads", leads: read.leads, minutesEach, setupMinutes: fromMilli(read.setup.likely * setups) };
  const entries = [
    ...read.entries,
    `/labourClasses/${labourClass.at}`,
    ...(attended && grade.is.labourPercent !== 100 ? [`/grades/${grade.at}`] : []),
  ];
  const from: Source[] = [
    { is: "item", id: item.id },
    ...(assembly ? [{ is: "assembly", id: assembly.id, name: assembly.name } as const] : []),
    { is: "operation", id: operation.is.id, name: operation.is.name },
    ...entries.map((entry) => ({ is: "rate book", entry }) as const),
  ];
  return {
    times: time,
    attended,
    labourClass: labourClass.is.id,
    line: {
      id: `labour:${item.id}`,
      sort: operation.is.sort,
      taxClass: "labour",
      taxCategory: rateBook.tax.labour,
      ...(assembly && { assembly: { id: assembly.id, name: assembly.name } }),
      operation: { id: operation.is.id, name: operation.is.name },
      ...(part && {
        part: {
          type: part.type.is.id,
          ...(part.kind && { kind: part.kind.id }),
          name: part.kind?.name ?? part.type.is.name,
        },
      }),
      labourClass: { id: labourClass.is.id, name: labourClass.is.name },
      count: item.count,
      minutes: fromMilli(time.likely),
      amount,
      why,
      from,
    },
  };
}
