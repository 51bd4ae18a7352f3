/** What was measured on the bench: a cell's voltage, a supply rail. */
import { asc, eq } from "drizzle-orm";
import { index, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database } from "./database.js";
import { type KeptOnce, onceColumns } from "./keptOnce.js";
import { withoutNulls } from "./noun.js";

export interface ReadingValue {
  /** Such as 'cell voltage' or 'supply +12 V'. */
  readonly label: string;
  readonly expected?: number;
  readonly found: number;
  /** Of both figures, such as V or mV. */
  readonly unit: string;
  readonly assembly?: string;
  readonly person: string;
}

export interface Reading extends KeptOnce, ReadingValue {}

export const readingsTable = sqliteTable(
  "readings",
  {
    ...onceColumns(),
    label: text("label").notNull(),
    expected: real("expected"),
    found: real("found").notNull(),
    unit: text("unit").notNull(),
    assembly: text("assembly"),
    person: text("person").notNull(),
  },
  (table) => [index("readings_job").on(table.jobId)],
);

/** Oldest first. */
export async function readingsOf(db: Database, jobId: string): Promise<Reading[]> {
  const rows = await db
    .select()
    .from(readingsTable)
    .where(eq(readingsTable.jobId, jobId))
    .orderBy(asc(readingsTable.at), asc(readingsTable.id));
  return rows.map((row) => withoutNulls<Reading>(row));
}
