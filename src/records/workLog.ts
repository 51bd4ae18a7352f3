/**
 * Time and parts really used, entry by entry; nothing is changed afterwards. A wrong entry is withdrawn by a record of its own: it stays
 * on record and counts nowhere.
 */
import { and, eq, gt, gte, isNotNull, lt, ne, type SQL, sql } from "drizzle-orm";
import { index, integer, real, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { PartState } from "../estimating/closeout/log/workLog.js";
import type { Hazard, IsoDate, Minor, Minutes } from "../estimating/input.js";
import type { Database, Instant } from "./database.js";
import { asWritten, type KeptOnce, type OfJobs, ofJobs, onceColumns } from "./keptOnce.js";
import { withoutNulls } from "./noun.js";
import { overridesTable } from "./overrides.js";

/** What was worked on: a work item, work in the shop's own words, or pulling parts of an offer; with none, opening and refitting, of one assembly or of all. */
export interface WorkedOn {
  readonly item?: string;
  /** What was done, where no revision has it; `assembly` is then where. */
  readonly own?: string;
  readonly assembly?: string;
  readonly offer?: string;
}

export interface LogEntryValue extends WorkedOn {
  /** Typed; a timed entry has its two ends instead. */
  readonly minutes?: Minutes;
  readonly startedAt?: Instant;
  readonly endedAt?: Instant;
  /** Worked at, where it is not the class of the item's operation, or of access. */
  readonly labourClass?: string;
  /** Of the work in own words. */
  readonly ownHazards?: readonly Hazard[];
  readonly partKind?: string;
  readonly partType?: string;
  /** A part in the shop's own words. */
  readonly ownPart?: string;
  /** Pieces used up, bad ones included. */
  readonly partCount?: number;
  /** What was paid for `paidPer` pieces. */
  readonly paidPrice?: Minor;
  readonly paidPer?: number;
  readonly partState?: PartState;
  readonly partSource?: string;
  /** Why what was paid is not what the shop knows of the part. */
  readonly partReason?: string;
  /** Fitted in place of the part the item was agreed with. */
  readonly insteadOf?: true;
  /** Selling price of parts that were not told piece by piece. */
  readonly parts?: Minor;
  readonly person: string;
  readonly workedOn: IsoDate;
  readonly note?: string;
}

export interface LogEntry extends KeptOnce, LogEntryValue {
  /** Id of the override that let it through. */
  readonly overrideId?: string;
}

export const workLogTable = sqliteTable(
  "work_log",
  {
    ...onceColumns(),
    item: text("item"),
    minutes: real("minutes"),
    labourClass: text("labour_class"),
    parts: integer("parts"),
    person: text("person").notNull(),
    workedOn: text("worked_on").notNull(),
    note: text("note"),
    overrideId: text("override_id").references(() => overridesTable.id),
    assembly: text("assembly"),
    offer: text("offer"),
    startedAt: text("started_at"),
    endedAt: text("ended_at"),
    partKind: text("part_kind"),
    partType: text("part_type"),
    partCount: integer("part_count"),
    paidPrice: integer("paid_price"),
    paidPer: integer("paid_per"),
    partState: text("part_state").$type<PartState>(),
    insteadOf: integer("instead_of", { mode: "boolean" }).$type<true>(),
    own: text("own"),
    ownHazards: text("own_hazards", { mode: "json" }).$type<readonly Hazard[]>(),
    ownPart: text("own_part"),
    partSource: text("part_source"),
    partReason: text("part_reason"),
  },
  (table) => [
    index("work_log_job").on(table.jobId),
    index("work_log_person").on(table.person, table.startedAt).where(isNotNull(table.startedAt)),
  ],
);

export interface EntryWithdrawal extends KeptOnce {
  readonly entryId: string;
  readonly by: string;
  readonly reason: string;
}

/** An entry as it stays on record, counted or not. */
export interface EntryKept extends LogEntry {
  readonly withdrawal?: EntryWithdrawal;
}

export const logWithdrawalsTable = sqliteTable(
  "log_withdrawals",
  {
    ...onceColumns(),
    entryId: text("entry_id")
      .notNull()
      .references(() => workLogTable.id),
    by: text("withdrawn_by").notNull(),
    reason: text("reason").notNull(),
  },
  (table) => [uniqueIndex("log_withdrawals_entry").on(table.entryId), index("log_withdrawals_job").on(table.jobId)],
);

/** Of a row of `workLogTable` that counts. */
export const standsInLog: SQL = sql`not exists (select 1 from log_withdrawals where entry_id = ${workLogTable.id})`;

/** Those that count, oldest first. */
export async function entriesOf(db: Database, jobId: string): Promise<LogEntry[]> {
  const rows = await db
    .select()
    .from(workLogTable)
    .where(and(eq(workLogTable.jobId, jobId), standsInLog))
    .orderBy(asWritten(workLogTable));
  return rows.map((row) => withoutNulls<LogEntry>(row));
}

/** Timed entries of a person on other jobs that share time with this. Nobody works longer than a day on end, so what began earlier has ended. */
export async function timedElsewhere(
  db: Database,
  jobId: string,
  person: string,
  from: Instant,
  to: Instant,
): Promise<LogEntry[]> {
  const rows = await db
    .select()
    .from(workLogTable)
    .where(
      and(
        eq(workLogTable.person, person),
        gte(workLogTable.startedAt, new Date(Date.parse(from) - 24 * 3_600_000).toISOString()),
        lt(workLogTable.startedAt, to),
        gt(workLogTable.endedAt, from),
        ne(workLogTable.jobId, jobId),
        standsInLog,
      ),
    );
  return rows.map((row) => withoutNulls<LogEntry>(row));
}

/** Every entry ever made, the withdrawn ones too; oldest first. */
export async function everyEntryOf(db: Database, jobs: OfJobs): Promise<EntryKept[]> {
  const rows = await db
    .select({ entry: workLogTable, withdrawal: logWithdrawalsTable })
    .from(workLogTable)
    .leftJoin(logWithdrawalsTable, eq(logWithdrawalsTable.entryId, workLogTable.id))
    .where(ofJobs(workLogTable, jobs))
    .orderBy(asWritten(workLogTable));
  return rows.map(({ entry, withdrawal }) => ({
    ...withoutNulls<LogEntry>(entry),
    ...(withdrawal && { withdrawal: withoutNulls<EntryWithdrawal>(withdrawal) }),
  }));
}
