/** Each row beside its copy, table by table in SQL: rows that are not what was written, rows without a copy, copies without a row. */
import { type SQL, sql } from "drizzle-orm";
import { type Copied, copiedTables } from "../../records/backup/tables.js";
import { values } from "../../records/backup/values.js";
import type { Database } from "../../records/database.js";
import { bodyOf, type Column, idOf, rowCopiesTable } from "../../records/rowCopies.js";
import type { Mismatch } from "./mismatch.js";

const MOST_TOLD = 20;

/** By table, the ids of the rows that are asked for. */
export type Among = Readonly<Record<string, readonly string[]>>;

type Beside = [id: string, is: "other" | "no row" | "no copy", row: string | null, copy: string | null];

/** `among`: of those rows alone. */
export async function copiesOtherwise(db: Database, among?: Among): Promise<Mismatch[]> {
  const tables = await copiedTables(db);
  const found: Mismatch[] = [];
  for (const copied of tables) {
    if (among && !Object.hasOwn(among, copied.table)) continue;
    const rows = await values<Beside>(db, besideOf(copied, among?.[copied.table]));
    found.push(...rows.flatMap((row) => told(copied, row)));
  }
  if (tables.length > 0 && !among) {
    const known = tables.map(({ table }) => table);
    const { of, id } = rowCopiesTable;
    const rows = await values<[string, string]>(
      db,
      sql`SELECT ${of}, ${id} FROM ${rowCopiesTable} WHERE ${of} NOT IN ${known} LIMIT ${MOST_TOLD}`,
    );
    for (const [table, row] of rows) found.push({ is: "copy without row", in: table, id: row });
  }
  return found;
}

function besideOf({ table, keys, columns }: Copied, only: readonly string[] | undefined): SQL {
  const [own, body, id] = [sql.raw(`\`${table}\``), sql.raw(bodyOf(columns, "t")), sql.raw(idOf(keys, "t"))];
  const part = ({ type }: Column, at: number): string => {
    if (keys.length > 1) return `CASE WHEN json_valid(c.id) THEN c.id ->> ${at} END`;
    return /^integer$/i.test(type) ? "CAST(c.id AS INTEGER)" : "c.id";
  };
  const same = sql.raw(keys.map((key, at) => `t.\`${key.name}\` = ${part(key, at)}`).join(" AND "));
  const gone = sql.raw(`t.\`${keys[0]!.name}\` IS NULL`);
  const [ofCopies, ofRows] = only ? [sql` AND c.id IN ${only}`, sql` AND ${id} IN ${only}`] : [sql``, sql``];
  return sql`SELECT c.id, CASE WHEN ${gone} THEN 'no row' ELSE 'other' END, ${body}, c.body FROM row_copies c LEFT JOIN ${own} t ON ${same}
    WHERE c.of = ${table} AND (${gone} OR ${body} IS NOT c.body)${ofCopies}
    UNION ALL SELECT ${id}, 'no copy', NULL, NULL FROM ${own} t
    WHERE NOT EXISTS (SELECT 1 FROM row_copies c WHERE c.of = ${table} AND c.id = ${id})${ofRows} LIMIT ${MOST_TOLD}`;
}

/** What was found out of a secret is not said. */
const SECRET = /hash|secret|salt|public_key/;

function told({ table, columns }: Copied, [id, is, row, copy]: Beside): Mismatch[] {
  const at = { in: table, id };
  if (is === "no copy") return [{ is: "row without copy", ...at }];
  if (is === "no row") return [{ is: "copy without row", ...at }];
  const [says, was] = [cellsOf(row), cellsOf(copy)];
  if (!says || was?.length !== says.length) return [{ is: "unreadable", ...at, what: "its copy" }];
  return columns.flatMap(({ name: column }, n): Mismatch[] => {
    if (says[n] === was[n]) return [];
    return [{ is: "row not as copied", ...at, column, ...(!SECRET.test(column) && { says: says[n], copy: was[n] }) }];
  });
}

function cellsOf(body: string | null): readonly unknown[] | undefined {
  try {
    return JSON.parse(body ?? "") as readonly unknown[];
  } catch {
    return undefined;
  }
}
