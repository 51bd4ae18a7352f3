/** People and firms who bring units in. */
import { sql } from "drizzle-orm";
import { sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Party } from "../estimating/input.js";
import { type Kept, keptColumns, partyColumns } from "./columns.js";
import type { Database } from "./database.js";
import { noun, withoutNulls } from "./noun.js";

export interface Owner extends Party {
  readonly notes?: string;
  /** Of the owner's documents, such as de; the shop's when absent. */
  readonly language?: string;
  /** BCP 47, such as de-AT: how the owner writes figures and days. */
  readonly locale?: string;
}

export const ownersTable = sqliteTable("owners", {
  ...keptColumns(),
  ...partyColumns(),
  notes: text("notes"),
  language: text("language"),
  locale: text("locale"),
});

export const owners = noun<Owner>(ownersTable);

/** By the beginning of the name, in order of names; upper and lower case of A to Z are the same. */
export async function ownersNamed(db: Database, begins: string, limit: number) {
  const pattern = `${begins.replaceAll(/[\\%_]/g, "\\$&")}%`;
  const rows = await db
    .select()
    .from(ownersTable)
    .where(sql`${ownersTable.name} LIKE ${pattern} ESCAPE '\\'`)
    .orderBy(sql`lower(${ownersTable.name})`, ownersTable.id)
    .limit(limit);
  return rows.map((row) => withoutNulls<Owner & Kept>(row));
}
