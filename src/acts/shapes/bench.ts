/** What the API says of the bench: the work log, timers, counts ticked off, readings. */
import { z } from "zod";
import { PART_STATES } from "../../estimating/closeout/log/workLog.js";
import { amount, ident, label, line, maybe, minutes, prose } from "./primitives.js";

const instant = z.string().meta({ format: "date-time" });
const moment = z.string().max(40).meta({ description: "ISO 8601 with a zone", example: "2026-11-25T09:30+00:00" });
const keptOnce = { id: z.string(), jobId: z.string(), at: instant };
const override = z.strictObject({ by: label, reason: label });

const workKeys = {
  item: maybe(ident).meta({ description: "A work item; with none of the three: opening and refitting" }),
  assembly: maybe(ident).meta({ description: "Opening and refitting of this assembly" }),
  offer: maybe(ident).meta({ description: "Pulling parts of this offer from a donor unit" }),
};
const entryKeys = {
  ...workKeys,
  minutes: maybe(minutes),
  startedAt: maybe(moment),
  endedAt: maybe(moment),
  labourClass: maybe(ident),
  partKind: maybe(ident).meta({ description: "A part of the catalogue, used for `item`" }),
  partType: maybe(ident).meta({ description: "A part type of the rate book, used for `item`" }),
  partCount: maybe(z.number()).meta({ description: "Pieces used up, bad ones included; 1 when absent" }),
  paidPrice: maybe(amount).meta({ description: "Paid for `paidPer` pieces; that of the newest offer when absent" }),
  paidPer: maybe(z.number()).meta({ description: "1 when absent" }),
  partState: maybe(z.enum(PART_STATES)).meta({ description: "new when absent" }),
  insteadOf: maybe(z.literal(true)).meta({ description: "Fitted in place of the part agreed, and reckoned against it" }),
  person: label,
  workedOn: z.iso.date(),
  note: maybe(prose),
};

export const logEntry = z
  .strictObject({ ...entryKeys, override: maybe(override) })
  .superRefine((entry, context) => {
    const wrong = (name: string, ...path: string[]) => context.addIssue({ code: "custom", path, params: { name } });
    const has = (...keys: (keyof typeof entryKeys)[]) => keys.some((key) => entry[key] !== undefined);
    if (!has("minutes", "startedAt", "endedAt", "partKind", "partType")) wrong("entry empty");
    if (has("minutes") && has("startedAt", "endedAt")) wrong("time given twice", "minutes");
    else if (has("startedAt") !== has("endedAt")) wrong("end missing", has("startedAt") ? "endedAt" : "startedAt");
    if (has("partKind") && has("partType")) wrong("part given twice", "partType");
    if (has("partKind", "partType") && !has("item")) wrong("work of the part missing", "item");
  })
  .meta({ id: "LogEntry" });
export const keptLogEntry = z
  .strictObject({
    ...keptOnce,
    ...entryKeys,
    parts: maybe(z.int()).meta({ description: "Selling price of parts, where the pieces are not told" }),
    overrideId: maybe(z.string()),
  })
  .meta({ id: "LogEntryRecord" });

export const entryWithdrawal = z.strictObject({ by: label, reason: prose }).meta({ id: "EntryWithdrawal" });
export const keptEntryWithdrawal = z
  .strictObject({ ...keptOnce, entryId: z.string(), by: z.string(), reason: z.string() })
  .meta({ id: "EntryWithdrawalRecord" });
export const listedLogEntry = keptLogEntry
  .extend({ withdrawal: maybe(keptEntryWithdrawal).meta({ description: "The entry was wrong, and counts nowhere" }) })
  .meta({ id: "LogEntryListed" });

const timerKeys = { ...workKeys, labourClass: maybe(ident), person: label };
export const timerStart = z
  .strictObject({ ...timerKeys, startedAt: maybe(moment).meta({ description: "Now when absent" }) })
  .meta({ id: "TimerStart" });
export const keptTimer = z
  .strictObject({ id: z.string(), jobId: z.string(), ...timerKeys, startedAt: instant })
  .meta({ id: "Timer" });
export const timerStop = z
  .strictObject({
    person: label.meta({ description: "Whose timer" }),
    endedAt: maybe(moment).meta({ description: "Now when absent" }),
    note: maybe(prose),
    override: maybe(override),
  })
  .meta({ id: "TimerStop" });

const tickKeys = {
  item: ident,
  count: z.number().meta({ description: "Done in all, not since the last one" }),
  person: label,
};
export const tickOff = z.strictObject(tickKeys).meta({ id: "TickOff" });
export const keptTickOff = z.strictObject({ ...keptOnce, ...tickKeys }).meta({ id: "TickOffRecord" });

const readingKeys = {
  label: label.meta({ example: "supply +12 V" }),
  expected: maybe(z.number()),
  found: z.number(),
  unit: line.min(1).meta({ example: "V" }),
  assembly: maybe(ident),
  person: label,
};
export const reading = z.strictObject(readingKeys).meta({ id: "Reading" });
export const keptReading = z.strictObject({ ...keptOnce, ...readingKeys }).meta({ id: "ReadingRecord" });
