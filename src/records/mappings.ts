/** Which column of a file is which field, remembered for every file with the same headings. */
import { eq } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import { sqliteTable, text } from "drizzle-orm/sqlite-core";
import { keptColumns } from "./columns.js";
import { contentHash } from "./contentHash.js";
import type { Database, Instant } from "./database.js";

export interface Mapping {
  /** Field -> heading. */
  readonly fields: Readonly<Record<string, string>>;
  /** Group of designators -> part type. */
  readonly types: Readonly<Record<string, string>>;
  /** Decimal sign. */
  readonly mark: "." | ",";
}

export const mappingsTable = sqliteTable("mappings", {
  ...keptColumns(),
  /** What is imported. */
  what: text("what").notNull(),
  headings: text("headings", { mode: "json" }).$type<readonly string[]>().notNull(),
  fields: text("fields", { mode: "json" }).$type<Mapping["fields"]>().notNull(),
  types: text("types", { mode: "json" }).$type<Mapping["types"]>().notNull(),
  mark: text("mark").$type<Mapping["mark"]>().notNull(),
});

/** The order of the columns does not matter. */
const idOf = (what: string, headings: readonly string[]) => contentHash([what, [...headings].sort()]);

export async function mappingFor(db: Database, what: string, headings: readonly string[]): Promise<Mapping | undefined> {
  const [row] = await db
    .select()
    .from(mappingsTable)
    .where(eq(mappingsTable.id, await idOf(what, headings)));
  return row && { fields: row.fields, types: row.types, mark: row.mark };
}

/** To be written with what was imported by it. A function, because a statement that is awaited runs. */
export async function remembered(
  db: Database,
  what: string,
  headings: readonly string[],
  mapping: Mapping,
  at: Instant,
): Promise<() => BatchItem<"sqlite">> {
  const id = await idOf(what, headings);
  return () =>
    db
      .insert(mappingsTable)
      .values({ id, version: 1, createdAt: at, updatedAt: at, what, headings, ...mapping })
      .onConflictDoUpdate({ target: mappingsTable.id, set: { ...mapping, updatedAt: at } });
}
