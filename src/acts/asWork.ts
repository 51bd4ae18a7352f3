/** A row of the work log as the engine reads it: its time, its part, and what both add to what was agreed. */
import type { LoggedWork } from "../estimating/agreement/workLog.js";
import type { Covered } from "../estimating/closeout/log/covered.js";
import { partAsLogged, timeAsLogged } from "../estimating/closeout/log/spent.js";
import type { Override, PartUsed, TimeEntry, Work } from "../estimating/closeout/log/workLog.js";
import type { EstimateInput, WorkItem } from "../estimating/input.js";
import type { LogEntryValue, WorkedOn } from "../records/workLog.js";

/** Work in own words is one piece of work wherever it is said in the same words of the same place. */
const workId = ({ item, own, assembly = "" }: WorkedOn): string | undefined =>
  item ?? (own === undefined ? undefined : `bench:${assembly}:${own}`);

export const workOf = (on: WorkedOn): Work => {
  const { assembly, offer } = on;
  const id = workId(on);
  if (id !== undefined) return { is: "item", id };
  if (offer !== undefined) return { is: "pull", offer };
  return { is: "access", ...(assembly !== undefined && { assembly }) };
};

type Row = LogEntryValue & { readonly id: string };

/** Undefined: the entry is of parts alone. */
export function timeOf(entry: Row, override?: Override): TimeEntry | undefined {
  const { id, person, labourClass, note, minutes, startedAt, endedAt } = entry;
  const on = {
    ...{ id, person, work: workOf(entry) },
    ...(labourClass !== undefined && { labourClass }),
    ...(note !== undefined && { note }),
    ...(override && { override }),
  };
  if (startedAt !== undefined) return { ...on, startedAt, ...(endedAt !== undefined && { endedAt }) };
  return minutes === undefined ? undefined : { ...on, minutes };
}

/** Undefined: no pieces are told, or not for which work, or not what was paid for them. */
export function partOf(entry: Row, override?: Override): PartUsed | undefined {
  const { id, partKind, partType, ownPart, partCount = 1, paidPrice, paidPer = 1, partState = "new", insteadOf, note } = entry;
  const item = workId(entry);
  const part =
    ownPart !== undefined
      ? { own: ownPart }
      : partKind !== undefined
        ? { kind: partKind }
        : partType !== undefined
          ? { type: partType }
          : undefined;
  if (!part || item === undefined || paidPrice === undefined) return undefined;
  return {
    ...{ id, item, part, count: partCount, state: partState },
    paid: { price: paidPrice, per: paidPer },
    ...(insteadOf && { insteadOf }),
    ...(note !== undefined && { note }),
    ...(override && { override }),
  };
}

/** What an entry adds to the log that is held against the limit. `covered`: which parts are reckoned against those agreed. */
export function asLogged(entry: Row, input: Pick<EstimateInput, "rateBook">, covered?: Pick<Covered, "counts">): LoggedWork {
  const [time, part] = [timeOf(entry), partOf(entry)];
  const parts = part ? partAsLogged(part, input).parts! + (entry.parts ?? 0) : entry.parts;
  return {
    ...(entry.item !== undefined && { item: entry.item }),
    ...(time && timeAsLogged(time)),
    ...(parts !== undefined && { parts }),
    ...(part && covered?.counts(part) && { pieces: part.count }),
  };
}

/** The work in own words that entries were made for, as it would stand on an estimate. */
export function ownWorkOf(entries: readonly LogEntryValue[]): WorkItem[] {
  const works = new Map<string, WorkItem>();
  for (const entry of entries) {
    const { own, assembly, ownHazards = [] } = entry;
    const id = workId(entry);
    if (own === undefined || id === undefined) continue;
    const hazards = [...new Set([...(works.get(id)?.own?.hazards ?? []), ...ownHazards])];
    works.set(id, {
      id,
      ...(assembly !== undefined && { assembly }),
      own: { name: own, ...(hazards.length > 0 && { hazards }) },
      count: 1,
      certainty: { is: "planned" },
    });
  }
  return [...works.values()];
}
