/** The parts catalogue. What is withdrawn from it is found by its id alone. */
import { and, asc, desc, eq, inArray, isNotNull, isNull, or, type SQL, sql } from "drizzle-orm";
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

type KindName = Readonly<Record<"id" | "name", string>>;

/** Ids and names alone, of the whole catalogue. */
export const kindNames = (db: Database): Promise<KindName[]> => {
  const { id, name, withdrawal } = partKindsTable;
  return db.select({ id, name }).from(partKindsTable).where(isNull(withdrawal)).orderBy(asc(name)).limit(10_000);
};

/** So many names go into a page, those on the shelf and those changed last first; the others are found while typing. */
const MOST_NEAR = 100;

/** Names to choose from while typing; the id where two parts have one name. */
export async function kindsNear(db: Database, ofType?: string): Promise<string[]> {
  const { id, name, type, stock, updatedAt, withdrawal } = partKindsTable;
  const which = and(isNull(withdrawal), ofType === undefined ? undefined : eq(type, ofType));
  const rows = await db
    .select({ id, name })
    .from(partKindsTable)
    .where(which)
    .orderBy(desc(sql`coalesce(${stock}, 0) > 0`), desc(updatedAt), asc(id))
    .limit(MOST_NEAR);
  const named = rows.map((row) => row.name.toLowerCase());
  const once = (at: number) => named.indexOf(named[at]!) === named.lastIndexOf(named[at]!);
  return rows.map((row, at) => (once(at) ? row.name : row.id)).sort();
}

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

/** Those of this id or this name, whatever the case. */
export const partKindsNamed = (db: Database, named: string): Promise<(PartKindValue & Kept)[]> =>
  partKinds.where(db, or(eq(partKindsTable.id, named), sql`${partKindsTable.name} = ${named} collate nocase`), 10);

/** By its id, or by its name where only one has it; `but`: the id of one that is not meant. */
export async function partKindNamed(db: Database, named: string, but?: string): Promise<PartKind | undefined> {
  const found = await partKindsNamed(db, named);
  const [only, ...more] = found.filter(({ id }) => id !== but);
  const own = found.find(({ id }) => id === named) ?? (more.length === 0 ? only : undefined);
  return own && asPartKind(own);
}
