/** The parts catalogue. What is withdrawn from it is found by its id alone. */
import { and, asc, eq, inArray, isNotNull, isNull, or, type SQL, sql } from "drizzle-orm";
import { integer, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { PartKind, Scarcity } from "../estimating/input.js";
import { type Kept, keptColumns, type Withdrawal, withdrawalColumn } from "./columns.js";
import type { Database } from "./database.js";
import { noun } from "./noun.js";

export type PartKindValue = Omit<PartKind, "id"> & { readonly withdrawal?: Withdrawal };

export const partKindsTable = sqliteTable("part_kinds", {
  ...keptColumns(),
  type: text("type").notNull(),
  name: text("name").notNull(),
  value: text("value"),
  ratedVolts: real("rated_volts"),
  tolerancePercent: real("tolerance_percent"),
  form: text("form"),
  audioGrade: integer("audio_grade", { mode: "boolean" }),
  leads: integer("leads"),
  scarcity: text("scarcity").$type<Scarcity>(),
  stock: integer("stock"),
  notes: text("notes"),
  ...withdrawalColumn(),
});

export const partKinds = noun<PartKindValue>(partKindsTable, isNull(partKindsTable.withdrawal));

/** The engine's own view of a catalogue row. */
export const asPartKind = ({ version, createdAt, updatedAt, withdrawal, ...kind }: PartKindValue & Kept): PartKind => kind;

/** Ids and names alone, to choose from while typing. */
export const kindNames = (db: Database, ofType?: string): Promise<{ readonly id: string; readonly name: string }[]> => {
  const { id, name, type, withdrawal } = partKindsTable;
  const which = and(isNull(withdrawal), ofType === undefined ? undefined : eq(type, ofType));
  return db.select({ id, name }).from(partKindsTable).where(which).orderBy(asc(name)).limit(10_000);
};

/** Those of the parts that were merged into another, by id, and which. */
export async function mergedInto(db: Database, ids: readonly string[]): Promise<ReadonlyMap<string, string>> {
  if (ids.length === 0) return new Map();
  const { id, withdrawal } = partKindsTable;
  const rows = await db
    .select({ id, withdrawal })
    .from(partKindsTable)
    .where(and(inArray(id, [...ids]), isNotNull(withdrawal)));
  return new Map(rows.flatMap(({ id, withdrawal }) => (withdrawal?.into === undefined ? [] : [[id, withdrawal.into] as const])));
}

/** The id that a part is kept under: its own, or that of the one it was merged into. */
export const keptAs = (id: string): SQL<string> =>
  sql`coalesce((select withdrawal ->> '$.into' from part_kinds where id = ${id}), ${id})`;

/** Names by id, of those that stand in the catalogue. */
export async function partKindNames(db: Database, ids: readonly string[]): Promise<ReadonlyMap<string, string>> {
  if (ids.length === 0) return new Map();
  const found = await partKinds.where(db, inArray(partKindsTable.id, [...ids]), 10_000);
  return new Map(found.map(({ id, name }) => [id, name]));
}

/** By its id, or by its name where only one has it, whatever the case. */
export async function partKindNamed(db: Database, named: string): Promise<PartKind | undefined> {
  const { id, name } = partKindsTable;
  const found = await partKinds.where(db, or(eq(id, named), sql`${name} = ${named} collate nocase`), 3);
  const own = found.find((kind) => kind.id === named) ?? (found.length === 1 ? found[0] : undefined);
  return own && asPartKind(own);
}
