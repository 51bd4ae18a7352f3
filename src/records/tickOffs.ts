import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { type KeptOnce, onceColumns } from "./keptOnce.js";

export interface TickOffValue {
  readonly item: string;
  /** Done in all, not since the last one. */
  readonly count: number;
  readonly person: string;
}

export interface TickOff extends KeptOnce, TickOffValue {}

export const tickOffsTable = sqliteTable(
  "tick_offs",
  {
    ...onceColumns(),
    item: text("item").notNull(),
    count: integer("count").notNull(),
    person: text("person").notNull(),
  },
  (table) => [index("tick_offs_job").on(table.jobId)],
);
