/** What no event tells of, row by row: stored JSON that is none, values that the program would not write, rows that name what is gone, pages of the file that do not fit together. */
import { readdir } from "node:fs/promises";
import { asc, getTableColumns, getTableName, gt, is, sql } from "drizzle-orm";
import { type SQLiteColumn, SQLiteTable } from "drizzle-orm/sqlite-core";
import type { z } from "zod";
import type { Mismatch } from "../../acts/checked/mismatch.js";
import { model } from "../../acts/model.js";
import { offer } from "../../acts/offer.js";
import { owner } from "../../acts/owner.js";
import { partKind } from "../../acts/partKind.js";
import { settings } from "../../acts/settings.js";
import { unit } from "../../acts/unit.js";
import { values } from "../../records/backup/values.js";
import type { Database } from "../../records/database.js";
import { modelsTable } from "../../records/models.js";
import { withoutNulls } from "../../records/noun.js";
import { asOffer, offersTable } from "../../records/offers.js";
import { ownersTable } from "../../records/owners.js";
import { asPartKind, partKindsTable } from "../../records/partKinds.js";
import { settingsTable } from "../../records/settings.js";
import { unitsTable } from "../../records/units.js";

const RECORDS = new URL("../../records/", import.meta.url);
const MOST_TOLD = 20;

/** Every table that the records declare, with its columns of JSON. */
async function jsonColumns(): Promise<(readonly [table: string, key: string, column: string])[]> {
  const files = (await readdir(RECORDS)).filter((name) => name.endsWith(".ts"));
  const modules = await Promise.all(files.map((name) => import(new URL(name, RECORDS).href) as Promise<object>));
  const tables = modules.flatMap((each) => Object.values(each)).filter((each): each is SQLiteTable => is(each, SQLiteTable));
  return [...new Set(tables)].flatMap((table) => {
    const columns = Object.values(getTableColumns(table)) as SQLiteColumn[];
    const key = columns.find(({ primary }) => primary)?.name ?? "rowid";
    return columns.filter(({ dataType }) => dataType === "json").map(({ name }) => [getTableName(table), key, name] as const);
  });
}

export async function unreadableJson(db: Database): Promise<Mismatch[]> {
  const found: Mismatch[] = [];
  for (const [table, key, column] of await jsonColumns()) {
    const rows = await values<[string]>(
      db,
      sql`SELECT ${sql.identifier(key)} FROM ${sql.identifier(table)} WHERE ${sql.identifier(column)} IS NOT NULL AND NOT json_valid(${sql.identifier(column)}) LIMIT ${MOST_TOLD}`,
    );
    for (const [id] of rows) found.push({ is: "unreadable", in: table, id: String(id), what: `the JSON of '${column}'` });
  }
  return found;
}

type Row = { readonly id: string } & Readonly<Record<string, unknown>>;
const KEPT = ["version", "createdAt", "updatedAt", "withdrawal"];
/** Of a row that is given out in another shape: what every record keeps. */
const kept = (row: Row): object => Object.fromEntries(Object.entries(row).filter(([key]) => KEPT.includes(key)));

const NOUNS: readonly (readonly [SQLiteTable, z.ZodType, (row: never) => unknown])[] = [
  [settingsTable, settings.kept, (row) => row],
  [ownersTable, owner.kept, (row) => row],
  [unitsTable, unit.kept, (row) => row],
  [modelsTable, model.kept, (row) => row],
  [partKindsTable, partKind.kept, (row) => ({ ...kept(row), ...asPartKind(row) })],
  [offersTable, offer.kept, (row) => ({ ...kept(row), ...asOffer(row) })],
];

/** Of what a shop keeps: each row as the program would give it out. `but`: rows already told of. */
export async function unfitRows(db: Database, but: ReadonlySet<string>): Promise<Mismatch[]> {
  const found: Mismatch[] = [];
  for (const [table, shape, as] of NOUNS) {
    const name = getTableName(table);
    if ([...but].some((told) => told.startsWith(`${name} `))) continue;
    for await (const row of everyRowOf(db, table)) {
      const read = shape.safeParse(as(withoutNulls(row) as never));
      if (!read.success)
        found.push({ is: "unreadable", in: name, id: row.id, what: `'${read.error.issues[0]!.path.join(".")}'` });
    }
  }
  return found;
}

const AT_ONCE = 500;

async function* everyRowOf(db: Database, table: SQLiteTable): AsyncGenerator<Row> {
  const { id } = getTableColumns(table) as unknown as { readonly id: SQLiteColumn };
  for (let after = ""; ; ) {
    const rows = (await db.select().from(table).where(gt(id, after)).orderBy(asc(id)).limit(AT_ONCE)) as Row[];
    yield* rows;
    if (rows.length < AT_ONCE) return;
    after = rows.at(-1)!.id;
  }
}

/** A file alone is looked at page by page. */
export async function damage(db: Database): Promise<Mismatch[]> {
  const pages = await values<[string]>(db, sql`SELECT * FROM pragma_integrity_check(${MOST_TOLD})`);
  const links = await values<[string, number, string]>(
    db,
    sql`SELECT "table", rowid, parent FROM pragma_foreign_key_check LIMIT ${MOST_TOLD}`,
  );
  return [
    ...pages.flatMap(([said]): Mismatch[] => (said === "ok" ? [] : [{ is: "damaged", what: said }])),
    ...links.map(
      ([table, row, parent]): Mismatch => ({
        is: "damaged",
        what: `row ${row} of ${table} names one of ${parent} that is not there.`,
      }),
    ),
  ];
}
