/** Nobody passes what the owner agreed to by accident: an entry that would is refused, or let through by an override on record. */
import { eq } from "drizzle-orm";
import { readMoment } from "../estimating/closeout/log/spent.js";
import type { EstimateInput } from "../estimating/input.js";
import { partOf } from "./asWork.js";
import { engineLog } from "./benchLog.js";
import { closedOn } from "./closed.js";
import type { Database, Instant } from "./database.js";
import { elsewhere } from "./elsewhere.js";
import { tellingOf } from "./keptOnce.js";
import { type EntryRefused, entryProblems, isOverridable, type LimitRefusal, limitRefusal } from "./logRefusal.js";
import { type Override, type OverrideValue, overridesTable } from "./overrides.js";
import { partKinds } from "./partKinds.js";
import { standingOf } from "./standing.js";
import { takeFromStock } from "./stock.js";
import { timersTable } from "./timers.js";
import { type Decided, recorded } from "./trail.js";
import { usualPaid } from "./usualPaid.js";
import { everyEntryOf, type LogEntry, type LogEntryValue, workLogTable } from "./workLog.js";

export type { LimitRefusal };

export type LogOutcome =
  | { readonly is: "logged"; readonly record: LogEntry; readonly override?: Override }
  | { readonly is: "missing" }
  | EntryRefused
  | LimitRefusal;

export interface Logging {
  /** Ids of the entry and, where it is needed, of the override. */
  readonly id: string;
  readonly overrideId: string;
  readonly entry: LogEntryValue;
  readonly override?: OverrideValue | undefined;
  /** Id of the timer whose time this is. */
  readonly stops?: string;
}

/** Moments may have any zone; what was paid may be left to `usualPaid`. */
export function logWork(db: Database, jobId: string, logging: Logging, at: Instant): Promise<LogOutcome> {
  const { id, overrideId, override, stops } = logging;
  return recorded(db, jobId, at, async (): Promise<Decided<LogOutcome>> => {
    // The same entry sent twice, even at once, is logged once; one withdrawn meanwhile does not come back.
    const before = (await everyEntryOf(db, jobId)).find((each) => each.id === id);
    if (before) return { answer: { is: "logged", record: before } };
    const standing = await standingOf(db, jobId, logging.entry);
    if (!standing?.input) return { answer: { is: "missing" } };
    const known = { ...standing, input: standing.input };
    const { kind, entry: value } = await priced(db, inUtc(logging.entry), known.input);
    const entry = { ...value, id };
    const log = await engineLog(db, jobId, stops);
    const closed = await closedOn(db, jobId);
    const problems = entryProblems(entry, known, log, closed, override);
    const hard = problems.filter((problem) => !isOverridable(problem));
    if (hard.length === 0) hard.push(...(await elsewhere(db, jobId, entry, known.input)));
    if (hard.length > 0) return { answer: { is: "refused", problems: hard } };
    const refusal = limitRefusal(entry, known, override ? entryProblems(entry, known, log, closed, undefined) : problems);
    if (refusal && !override) return { answer: refusal };

    const pass = refusal && override && overrideOf(jobId, overrideId, "work log", override, refusal, at);
    const record: LogEntry = { ...entry, jobId, at, ...(pass && { overrideId }) };
    const part = partOf(record);
    return {
      answer: { is: "logged", record, ...(pass && { override: pass }) },
      writes: [
        ...(pass ? [db.insert(overridesTable).values(pass)] : []),
        db.insert(workLogTable).values(record),
        ...(stops === undefined ? [] : [db.delete(timersTable).where(eq(timersTable.id, stops))]),
        ...(part && kind !== undefined
          ? [takeFromStock(db, { id: `used:${id}`, kind, pieces: part.count, jobId, by: entry.person, at })]
          : []),
      ],
      events: [
        ...(pass
          ? [{ is: "limit overridden" as const, content: { by: pass.by, record: await tellingOf("overrides", pass) } }]
          : []),
        { is: "work logged", content: { person: entry.person, record: await tellingOf("work_log", record) } },
      ],
    };
  });
}

/** A moment that cannot be read stays as it is, for the log's check to name. */
export const utc = (moment: string): Instant =>
  readMoment(moment) === undefined ? moment : new Date(readMoment(moment)!).toISOString();

const inUtc = (entry: LogEntryValue): LogEntryValue => ({
  ...entry,
  ...(entry.startedAt !== undefined && { startedAt: utc(entry.startedAt) }),
  ...(entry.endedAt !== undefined && { endedAt: utc(entry.endedAt) }),
});

/**
 * With what was paid. A part of the catalogue that no revision names is told as its type, so that the log can be closed out; it leaves
 * the shelf as itself (`kind`).
 */
async function priced(
  db: Database,
  entry: LogEntryValue,
  input: EstimateInput,
): Promise<{ readonly entry: LogEntryValue; readonly kind?: string }> {
  const { partKind, ...rest } = entry;
  if (partKind === undefined && entry.partType === undefined) return { entry };
  const { paidPrice, paidPer = 1 } = entry;
  const paid = paidPrice === undefined ? await usualPaid(db, entry, input) : { paidPrice, paidPer };
  const whole = { ...paid, partCount: entry.partCount ?? 1, partState: entry.partState ?? "new" };
  const kept = partKind === undefined ? undefined : await partKinds.find(db, partKind);
  const named = (input.kinds ?? []).some(({ id }) => id === partKind);
  const note = [kept?.name, entry.note].filter(Boolean).join(": ");
  return {
    entry: kept && !named ? { ...rest, ...whole, partType: kept.type, note } : { ...entry, ...whole },
    ...(kept && { kind: kept.id }),
  };
}

const overrideOf = (
  jobId: string,
  id: string,
  of: Override["of"],
  { by, reason }: OverrideValue,
  refusal: LimitRefusal,
  at: Instant,
): Override => {
  const { besides = refusal } = refusal.is === "job closed" ? refusal : {};
  const names = besides === refusal ? [refusal] : [refusal, besides];
  return {
    ...{ id, jobId, at, of, by, reason },
    refusal: names.map((each) => (each.is === "not agreed" ? each.why : each.is)).join(", "),
    ...(besides.is === "above limit" && { over: besides.by }),
  };
};
