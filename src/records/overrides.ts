/** Who let work or a bill pass what the owner agreed to, and why. */
import { eq } from "drizzle-orm";
import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Minor } from "../estimating/input.js";
import type { Database } from "./database.js";
import { asWritten, type KeptOnce, onceColumns } from "./keptOnce.js";
import { withoutNulls } from "./noun.js";

export interface OverrideValue {
  readonly by: string;
  readonly reason: string;
}

export interface Override extends KeptOnce, OverrideValue {
  /** work: that it begins at all. */
  readonly of: "work log" | "close-out" | "work";
  /** What it let pass. */
  readonly refusal: string;
  /** By how much, where it was an amount; as the limit is measured. */
  readonly over?: Minor;
}

export const overridesTable = sqliteTable(
  "overrides",
  {
    ...onceColumns(),
    of: text("override_of").$type<Override["of"]>().notNull(),
    by: text("decided_by").notNull(),
    reason: text("reason").notNull(),
    refusal: text("refusal").notNull(),
    over: integer("over_by"),
  },
  (table) => [index("overrides_job").on(table.jobId)],
);

/** Oldest first. */
export async function overridesOf(db: Database, jobId: string): Promise<Override[]> {
  const rows = await db.select().from(overridesTable).where(eq(overridesTable.jobId, jobId)).orderBy(asWritten(overridesTable));
  return rows.map((row) => withoutNulls<Override>(row));
}
