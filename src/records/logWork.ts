/** Nobody passes what the owner agreed to by accident: an entry or a bill that would is refused, or let through by an override on record. */
import { type Measured, over } from "../estimating/agreement/limit.js";
import type { Unagreed } from "../estimating/agreement/unagreed.js";
import { mayLog } from "../estimating/agreement/workLog.js";
import type { Minor } from "../estimating/input.js";
import { asLogged } from "./asWork.js";
import type { Database, Instant } from "./database.js";
import { told } from "./keptOnce.js";
import { type Override, type OverrideValue, overridesTable } from "./overrides.js";
import { type Standing, standingOf } from "./standing.js";
import { type Decided, recorded } from "./trail.js";
import { entriesOf, type LogEntry, type LogEntryValue, workLogTable } from "./workLog.js";

export type LimitRefusal =
  | { readonly is: "not agreed"; readonly why: Unagreed["why"] }
  /** By how much, with tax or without as the limit is measured. */
  | { readonly is: "above limit"; readonly by: Minor; readonly withTax: boolean };

export type LogOutcome =
  | { readonly is: "logged"; readonly record: LogEntry; readonly override?: Override }
  | { readonly is: "missing" }
  | { readonly is: "unknown"; readonly field: "item" | "labourClass"; readonly id: string }
  | LimitRefusal;

export interface Logging {
  /** Ids of the entry and, where it is needed, of the override. */
  readonly id: string;
  readonly overrideId: string;
  readonly entry: LogEntryValue;
  readonly override?: OverrideValue | undefined;
}

export function logWork(db: Database, jobId: string, logging: Logging, at: Instant): Promise<LogOutcome> {
  const { id, overrideId, entry, override } = logging;
  return recorded(db, jobId, at, async (): Promise<Decided<LogOutcome>> => {
    // The same entry sent twice, even at once, is logged once.
    const before = (await entriesOf(db, jobId)).find((each) => each.id === id);
    if (before) return { answer: { is: "logged", record: before } };
    const standing = await standingOf(db, jobId, entry);
    if (!standing?.input) return { answer: { is: "missing" } };
    const unknown = unknownIn(entry, standing);
    if (unknown) return { answer: unknown };
    const refusal = refusalOf({ ...entry, id }, standing);
    if (refusal && !override) return { answer: refusal };

    const pass = refusal && override && overrideOf(jobId, overrideId, "work log", override, refusal, at);
    const record: LogEntry = { ...entry, id, jobId, at, ...(pass && { overrideId }) };
    return {
      answer: { is: "logged", record, ...(pass && { override: pass }) },
      writes: [...(pass ? [db.insert(overridesTable).values(pass)] : []), db.insert(workLogTable).values(record)],
      events: [
        ...(pass ? [{ is: "limit overridden" as const, content: { by: pass.by, record: await told("overrides", pass) } }] : []),
        { is: "work logged", content: { person: entry.person, record: await told("work_log", record) } },
      ],
    };
  });
}

function unknownIn(
  { item, labourClass }: LogEntryValue,
  { input }: Standing,
): Extract<LogOutcome, { is: "unknown" }> | undefined {
  if (item !== undefined && !input!.items.some(({ id }) => id === item)) return { is: "unknown", field: "item", id: item };
  return labourClass !== undefined && !input!.rateBook.labourClasses.some(({ id }) => id === labourClass)
    ? { is: "unknown", field: "labourClass", id: labourClass }
    : undefined;
}

function refusalOf(
  entry: LogEntryValue & { readonly id: string },
  { agreed, unagreed, input, log }: Standing,
): LimitRefusal | undefined {
  if (!agreed) return { is: "not agreed", why: "nothing agreed" };
  const verdict = mayLog(input!, { ...agreed, unagreed }, log, asLogged(entry, input!));
  if (verdict.is === "within") return undefined;
  return verdict.is === "not agreed"
    ? { is: "not agreed", why: verdict.why }
    : { is: "above limit", by: verdict.by, withTax: agreed.limit.withTax };
}

/** Whether a final bill stays within what was agreed; what the log used up does not matter here, only what is asked for. */
export async function billRefusal(db: Database, jobId: string, bill: Measured): Promise<LimitRefusal | undefined> {
  const agreed = (await standingOf(db, jobId))?.agreed;
  if (!agreed) return bill.total > 0 ? { is: "not agreed", why: "nothing agreed" } : undefined;
  const by = over(agreed.limit, bill);
  return by > 0 ? { is: "above limit", by, withTax: agreed.limit.withTax } : undefined;
}

export type BillOutcome = { readonly is: "within" } | { readonly is: "overridden"; readonly override: Override } | LimitRefusal;

/** Before a job is closed out with this bill. An override is put on record only where it is needed. */
export function mayBill(
  db: Database,
  jobId: string,
  { id, bill, override }: { readonly id: string; readonly bill: Measured; readonly override?: OverrideValue | undefined },
  at: Instant,
): Promise<BillOutcome> {
  return recorded(db, jobId, at, async (): Promise<Decided<BillOutcome>> => {
    const refusal = await billRefusal(db, jobId, bill);
    if (!refusal) return { answer: { is: "within" } };
    if (!override) return { answer: refusal };
    const row = overrideOf(jobId, id, "close-out", override, refusal, at);
    return {
      answer: { is: "overridden", override: row },
      writes: [db.insert(overridesTable).values(row)],
      events: [{ is: "limit overridden", content: { by: row.by, record: await told("overrides", row) } }],
    };
  });
}

const overrideOf = (
  jobId: string,
  id: string,
  of: Override["of"],
  { by, reason }: OverrideValue,
  refusal: LimitRefusal,
  at: Instant,
): Override => ({
  ...{ id, jobId, at, of, by, reason },
  refusal: refusal.is === "not agreed" ? refusal.why : refusal.is,
  ...(refusal.is === "above limit" && { over: refusal.by }),
});
