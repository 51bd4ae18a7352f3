/** Rows that are written once and never change: columns they share, and what an event says of them. */
import { inArray, type SQL, sql } from "drizzle-orm";
import { type SQLiteColumn, type SQLiteTable, text } from "drizzle-orm/sqlite-core";
import { contentHash } from "./contentHash.js";
import type { Instant } from "./database.js";
import { jobsTable } from "./jobs.js";
import { withoutNulls } from "./noun.js";

export const onceColumns = () => ({
  id: text("id").primaryKey(),
  jobId: text("job_id")
    .notNull()
    .references(() => jobsTable.id),
  at: text("at").notNull(),
});

export interface KeptOnce {
  readonly id: string;
  readonly jobId: string;
  readonly at: Instant;
}

/** One job, or several. */
export type OfJobs = string | readonly string[];
export const ofJobs = (table: { readonly jobId: SQLiteColumn }, jobs: OfJobs): SQL => inArray(table.jobId, [jobs].flat());

/** The order in which rows were written: the shop's clock may have been put back between two of them. */
export const asWritten = (table: SQLiteTable): SQL => sql`${table}.rowid`;

/** Which row an event tells of, with the hash of all it holds: a row that is changed, added or taken away later shows. */
export interface Telling {
  readonly in: string;
  readonly id: string;
  readonly hash: string;
}

/** `row` as it is read back: columns without a value may be null or absent. */
export async function tellingOf(table: string, row: { readonly id: string }): Promise<Telling> {
  return { in: table, id: row.id, hash: await contentHash(withoutNulls(row)) };
}
