/**
 * Puts a backup into a database that holds no shop. The backup is read from end to end first. Its rows then come page by page, the
 * settings last, in one batch with the triggers: a database without settings is no shop, so one that was left halfway is seen to be
 * so, and a new restore begins by emptying it.
 */
import { sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Database } from "../database.js";
import type { BackupHead, Cell, FileLine, PageLine } from "./format.js";
import { fromBase64 } from "./format.js";
import { dropped, madeAgain, type Trigger, triggersOf } from "./guards.js";
import { type BackupFault, contents, readBackup, type Source } from "./read.js";
import { schemaOf, type Tables, tablesOf } from "./tables.js";
import { values } from "./values.js";

export type Restored =
  | { readonly is: "restored"; readonly head: BackupHead; readonly rows: number }
  | BackupFault
  /** There are rows already. */
  | { readonly is: "shop there"; readonly table: string }
  /** The tables of the database are not those of the backup: they have to be of its age before rows can be put in. */
  | { readonly is: "older"; readonly schema: number; readonly known: number };

const SETTINGS = "settings";
/** Filled by set-up and sign-in before there is a shop. */
const MAY_BE_FILLED = new Set([
  "staff",
  "passkeys",
  "passphrases",
  "recovery_codes",
  "api_tokens",
  "invitations",
  "sign_in_events",
]);

export type KeepFile = (file: { readonly name: string; readonly type: string; readonly bytes: Uint8Array }) => Promise<void>;

/** `keepFile` takes the files beside the database. */
export async function restore(db: Database, source: Source, keepFile: KeepFile): Promise<Restored> {
  const known = await schemaOf(db);
  const read = await readBackup(source, known);
  if (read.is !== "sound") return read;
  const { head } = read;
  if (head.schema < known) return { is: "older", schema: head.schema, known };
  const tables = await tablesOf(db);
  const filled = await filledTable(db, tables);
  if (filled) return { is: "shop there", table: filled };
  if (Object.entries(head.tables).some(([name, { columns }]) => !sameColumns(tables, name, columns)))
    return { is: "altered", line: 1 };

  const triggers = await begin(db, tables);
  try {
    const last: BatchItem<"sqlite">[] = [];
    for await (const part of contents(source)) {
      if ("file" in part) {
        const { file: name, type, base64 } = part satisfies FileLine;
        // Without bytes it was lost before the backup was made.
        if (base64 !== "") await keepFile({ name, type, bytes: fromBase64(base64) });
      } else if (part.table === SETTINGS) last.push(...inserts(db, part, head));
      else await run(db, inserts(db, part, head));
    }
    await run(db, [
      ...last,
      ...indexed(db, tables),
      ...triggers.map((trigger) => madeAgain(db, trigger)),
      db.run(sql`DROP TABLE restoring`),
    ]);
  } catch (error) {
    await run(db, [
      ...emptied(db, tables),
      ...indexed(db, tables),
      ...triggers.map((trigger) => madeAgain(db, trigger)),
      db.run(sql`DROP TABLE restoring`),
    ]);
    throw error;
  }
  return { is: "restored", head, rows: Object.values(head.tables).reduce((sum, { rows }) => sum + rows, 0) };
}

const run = async (db: Database, items: readonly BatchItem<"sqlite">[]): Promise<void> => {
  const [first, ...rest] = items;
  if (first) await db.batch([first, ...rest]);
};

/** The first table that holds a shop. What an unfinished restore left behind is none. */
async function filledTable(db: Database, { kept }: Tables): Promise<string | undefined> {
  if (await unfinished(db)) return undefined;
  const looked = kept
    .filter(({ name }) => !MAY_BE_FILLED.has(name))
    .map(({ name }) => sql`SELECT ${name} WHERE EXISTS (SELECT 1 FROM ${sql.identifier(name)})`);
  const [found] = await values<[string]>(db, sql`${sql.join(looked, sql` UNION ALL `)} LIMIT 1`);
  return found?.[0];
}

const unfinished = async (db: Database): Promise<boolean> =>
  (await values(db, sql`SELECT 1 FROM sqlite_master WHERE name = 'restoring'`)).length > 0;

const sameColumns = ({ kept }: Tables, name: string, columns: readonly string[]): boolean => {
  const there = kept.find((table) => table.name === name);
  return there !== undefined && [...there.columns].sort().join() === [...columns].sort().join();
};

/** SQLite, FTS5, 6.9: an index with its content in another table is made again from it. */
const indexed = (db: Database, { indexes }: Tables) =>
  indexes.map((name) => db.run(sql`INSERT INTO ${sql.identifier(name)} (${sql.identifier(name)}) VALUES ('rebuild')`));

const emptied = (db: Database, tables: Tables) =>
  [...tables.emptied].reverse().map((name) => db.run(sql`DELETE FROM ${sql.identifier(name)}`));

/** Takes the triggers away, and keeps them in a table of their own until they are back. */
async function begin(db: Database, tables: Tables): Promise<readonly Trigger[]> {
  if (await unfinished(db)) {
    const rows = await values<[string, string, string]>(db, sql`SELECT name, tbl, made FROM restoring ORDER BY rowid`);
    await run(db, [...(await triggersOf(db)).map((trigger) => dropped(db, trigger)), ...emptied(db, tables)]);
    return rows.map(([name, table, made]) => ({ name, table, sql: made }));
  }
  const triggers = await triggersOf(db);
  await run(db, [
    db.run(sql`CREATE TABLE restoring (name text NOT NULL, tbl text NOT NULL, made text NOT NULL) STRICT`),
    ...triggers.map(({ name, table, sql: made }) =>
      db.run(sql`INSERT INTO restoring (name, tbl, made) VALUES (${name}, ${table}, ${made})`),
    ),
    ...triggers.map((trigger) => dropped(db, trigger)),
    ...emptied(db, tables),
  ]);
  return triggers;
}

/** Fewer statements than rows, each below SQLite's limit of variables. */
const MOST_VARIABLES = 500;

function inserts(db: Database, { table, rows }: PageLine, head: BackupHead): BatchItem<"sqlite">[] {
  const { columns } = head.tables[table]!;
  const names = sql.join(
    columns.map((column) => sql.identifier(column)),
    sql`, `,
  );
  const atOnce = Math.max(1, Math.floor(MOST_VARIABLES / columns.length));
  const made: BatchItem<"sqlite">[] = [];
  for (let at = 0; at < rows.length; at += atOnce) {
    const groups = rows.slice(at, at + atOnce).map(
      (cells) =>
        sql`(${sql.join(
          cells.map((cell) => sql`${bound(cell)}`),
          sql`, `,
        )})`,
    );
    made.push(db.run(sql`INSERT INTO ${sql.identifier(table)} (${names}) VALUES ${sql.join(groups, sql`, `)}`));
  }
  return made;
}

const bound = (cell: Cell): string | number | null | Uint8Array =>
  cell !== null && typeof cell === "object" ? fromBase64(cell.base64) : cell;
