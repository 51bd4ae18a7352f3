/** A row of the work log as the engine reads it: its time, its part, and what both add to what was agreed. */
import type { LoggedWork } from "../estimating/agreement/workLog.js";
import { partAsLogged, timeAsLogged } from "../estimating/closeout/log/spent.js";
import type { Override, PartUsed, TimeEntry, Work } from "../estimating/closeout/log/workLog.js";
import type { EstimateInput } from "../estimating/input.js";
import type { LogEntryValue, WorkedOn } from "../records/workLog.js";

export const workOf = ({ item, assembly, offer }: WorkedOn): Work => {
  if (item !== undefined) return { is: "item", id: item };
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
  const { id, item, partKind, partType, partCount = 1, paidPrice, paidPer = 1, partState = "new", insteadOf, note } = entry;
  const part = partKind !== undefined ? { kind: partKind } : partType !== undefined ? { type: partType } : undefined;
  if (!part || item === undefined || paidPrice === undefined) return undefined;
  return {
    ...{ id, item, part, count: partCount, state: partState },
    paid: { price: paidPrice, per: paidPer },
    ...(insteadOf && { insteadOf }),
    ...(note !== undefined && { note }),
    ...(override && { override }),
  };
}

/** What an entry adds to the log that is held against the limit. */
export function asLogged(entry: Row, input: Pick<EstimateInput, "rateBook">): LoggedWork {
  const [time, part] = [timeOf(entry), partOf(entry)];
  const parts = part ? partAsLogged(part, input).parts! + (entry.parts ?? 0) : entry.parts;
  return {
    ...(entry.item !== undefined && { item: entry.item }),
    ...(time && timeAsLogged(time)),
    ...(parts !== undefined && { parts }),
  };
}
