/** The tables of a database as it stands: whatever a migration adds is backed up without being named here. */
import { sql } from "drizzle-orm";
import type { Database } from "../database.js";
import { RECORD_TABLES } from "../onRecord.js";
import { type Column, UNCOPIED, UNCOPIED_COLUMNS } from "../rowCopies.js";
import { values } from "./values.js";

/** Of the moment: what is answered twice, who tried to sign in, who is signed in. A restore leaves them empty. */
const OF_THE_MOMENT = new Set(["idempotent_replies", "sign_in_attempts", "owner_entries", "sessions", "spent_challenges"]);
/** Stays with the place, not with the shop. */
const OF_THE_PLACE = new Set(["signing_keys", "restoring"]);

export interface Table {
  readonly name: string;
  readonly columns: readonly string[];
  /** Columns that hold bytes. */
  readonly blobs: readonly string[];
}

export interface Tables {
  /** In an order in which rows name only rows of tables before them, or of their own. */
  readonly kept: readonly Table[];
  /** Names, in the same order. */
  readonly emptied: readonly string[];
  /** Full text indexes (FTS5) over tables that are kept. */
  readonly indexes: readonly string[];
}

/** Virtual tables and their shadows are made anew from the others. */
export async function tablesOf(db: Database): Promise<Tables> {
  const columns = await values<[string, string, string]>(
    db,
    sql`SELECT t.name, c.name, c.type FROM pragma_table_list t JOIN pragma_table_info(t.name) c
      WHERE t.schema = 'main' AND t.type = 'table' AND t.name NOT LIKE 'sqlite\\_%' ESCAPE '\\' AND t.name NOT LIKE '\\_\\_%' ESCAPE '\\'
      ORDER BY t.name, c.cid`,
  );
  const links = await values<[string, string]>(
    db,
    sql`SELECT t.name, f."table" FROM pragma_table_list t JOIN pragma_foreign_key_list(t.name) f WHERE t.schema = 'main' AND t.type = 'table'`,
  );
  const names = inOrder([...new Set(columns.map(([name]) => name))], links).filter((name) => !OF_THE_PLACE.has(name));
  const kept = names
    .filter((name) => !OF_THE_MOMENT.has(name))
    .map((name) => {
      const own = columns.filter(([table]) => table === name);
      return {
        name,
        columns: own.map(([, column]) => column),
        blobs: own.filter(([, , type]) => type.toUpperCase() === "BLOB").map(([, column]) => column),
      };
    });
  const indexes = await values<[string]>(
    db,
    sql`SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'virtual' ORDER BY name`,
  );
  return { kept, emptied: names, indexes: indexes.map(([name]) => name) };
}

function inOrder(names: readonly string[], links: readonly (readonly [from: string, to: string])[]): string[] {
  const ordered: string[] = [];
  const visit = (name: string) => {
    if (ordered.includes(name) || !names.includes(name)) return;
    for (const [from, to] of links) if (from === name && to !== name) visit(to);
    ordered.push(name);
  };
  for (const name of names) visit(name);
  return ordered;
}

export interface Copied {
  readonly table: string;
  readonly keys: readonly Column[];
  /** What a copy holds of a row, in this order. */
  readonly columns: readonly Column[];
}

/** Every table that is backed up and not named with a reason, as it stands in this database; none before there were copies. */
export async function copiedTables(db: Database): Promise<readonly Copied[]> {
  const names = (await tablesOf(db)).kept.map(({ name }) => name);
  if (!names.includes("row_copies")) return [];
  const all = await values<[string, string, string, number]>(
    db,
    sql`SELECT t.name, c.name, c.type, c.pk FROM pragma_table_list t JOIN pragma_table_info(t.name) c
      WHERE t.schema = 'main' AND t.type = 'table' ORDER BY t.name, c.cid`,
  );
  return names
    .filter((name) => !Object.hasOwn(RECORD_TABLES, name) && !Object.hasOwn(UNCOPIED, name))
    .map((table) => {
      const own = all.flatMap(([of, name, type, key]) => (of === table ? [{ name, type, key }] : []));
      const left = UNCOPIED_COLUMNS[table] ?? {};
      return {
        table,
        keys: own.filter(({ key }) => key > 0).sort((a, b) => a.key - b.key),
        columns: own.filter(({ name, key }) => key === 0 && !Object.hasOwn(left, name)),
      };
    });
}

/** How many migrations made the tables. */
export async function schemaOf(db: Database): Promise<number> {
  const [row] = await values<[number]>(db, sql`SELECT count(*) FROM __drizzle_migrations`);
  return row![0];
}
