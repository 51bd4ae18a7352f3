import { index, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { type KeptOnce, onceColumns } from "./keptOnce.js";

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
