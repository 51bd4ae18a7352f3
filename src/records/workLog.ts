/** Time and parts really used, entry by entry; nothing is changed afterwards. `logWork.ts` decides whether an entry may be made. */
import { asc, eq } from "drizzle-orm";
import { index, integer, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { LoggedWork } from "../estimating/agreement/workLog.js";
import type { IsoDate } from "../estimating/input.js";
import type { Database } from "./database.js";
import { type KeptOnce, onceColumns } from "./keptOnce.js";
import { withoutNulls } from "./noun.js";
import { overridesTable } from "./overrides.js";

export interface LogEntryValue extends LoggedWork {
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
    /** Id of a work item; absent: opening and refitting. */
    item: text("item"),
    minutes: real("minutes"),
    labourClass: text("labour_class"),
    parts: integer("parts"),
    person: text("person").notNull(),
    workedOn: text("worked_on").notNull(),
    note: text("note"),
    overrideId: text("override_id").references(() => overridesTable.id),
  },
  (table) => [index("work_log_job").on(table.jobId)],
);

/** Oldest first. */
export async function entriesOf(db: Database, jobId: string): Promise<LogEntry[]> {
  const rows = await db
    .select()
    .from(workLogTable)
    .where(eq(workLogTable.jobId, jobId))
    .orderBy(asc(workLogTable.at), asc(workLogTable.id));
  return rows.map((row) => withoutNulls<LogEntry>(row));
}

export const loggedFor = async (db: Database, jobId: string): Promise<LoggedWork[]> => (await entriesOf(db, jobId)).map(asLogged);

export const asLogged = ({ item, minutes, labourClass, parts }: LoggedWork): LoggedWork => ({
  ...(item !== undefined && { item }),
  ...(minutes !== undefined && { minutes }),
  ...(labourClass !== undefined && { labourClass }),
  ...(parts !== undefined && { parts }),
});
