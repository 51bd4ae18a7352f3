/**
 * Puts a backup into a database that holds no shop. The backup is read from end to end first. Its rows then come page by page, the
 * settings last, in one batch with the triggers: a database without settings is no shop, so one that was left halfway is seen to be
 * so, and a new restore begins by emptying it.
 */
import { sql } from "drizzle-orm";
import type { Database } from "../database.js";
import { clientOf } from "../steadyClient.js";
import type { BackupHead, Cell, FileLine, PageLine } from "./format.js";
import { fromBase64 } from "./format.js";
import { type Trigger, triggersOf } from "./guards.js";
import { type BackupFault, type BackupRead, contents, readBackup, type Source } from "./read.js";
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
  "row_copies",
]);

export type KeepFile = (file: { readonly name: string; readonly type: string; readonly bytes: Uint8Array }) => Promise<void>;

/** `keepFile` takes the files beside the database. `already`: it was read to its end, and this is what was found. */
export async function restore(db: Database, source: Source, keepFile: KeepFile, already?: BackupRead): Promise<Restored> {
  const known = await schemaOf(db);
  const read = already ?? (await readBackup(source, known));
  if (read.is !== "sound") return read;
  const { head } = read;
  if (head.schema < known) return { is: "older", schema: head.schema, known };
  const tables = await tablesOf(db);
  const filled = await filledTable(db, tables);
  if (filled) return { is: "shop there", table: filled };
  if (Object.entries(head.tables).some(([name, { columns }]) => !sameColumns(tables, name, columns)))
    return { is: "altered", line: 1 };

  const triggers = await begin(db, tables);
  const asBefore = [...indexed(tables), ...triggers.map(({ sql: made }) => made), "DROP TABLE restoring"];
  try {
    const last: Statement[] = [];
    for await (const part of contents(source)) {
      if ("file" in part) {
        const { file: name, type, base64 } = part satisfies FileLine;
        // Without bytes it was lost before the backup was made.
        if (base64 !== "") await keepFile({ name, type, bytes: fromBase64(base64) });
      } else if (part.table === SETTINGS) last.push(...inserts(part, head));
      else for (const some of inParts(inserts(part, head))) await run(db, some);
    }
    await run(db, [...last, ...asBefore]);
  } catch (error) {
    await run(db, [...emptied(tables), ...asBefore]);
    throw error;
  }
  return { is: "restored", head, rows: Object.values(head.tables).reduce((sum, { rows }) => sum + rows, 0) };
}

/** As the driver takes it: made of a hundred thousand cells, drizzle's own takes a hundred times their room. */
type Statement = string | [string, (string | number | null | Uint8Array)[]];

const run = async (db: Database, statements: readonly Statement[]): Promise<void> => {
  if (statements.length > 0) await clientOf(db)!.batch([...statements], "write");
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

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** SQLite, FTS5, 6.9: an index with its content in another table is made again from it. */
const indexed = ({ indexes }: Tables): string[] =>
  indexes.map(quoted).map((name) => `INSERT INTO ${name} (${name}) VALUES ('rebuild')`);

const emptied = (tables: Tables): string[] => [...tables.emptied].reverse().map((name) => `DELETE FROM ${quoted(name)}`);

/** Takes the triggers away, and keeps them in a table of their own until they are back. */
async function begin(db: Database, tables: Tables): Promise<readonly Trigger[]> {
  const there = await triggersOf(db);
  const away = there.map(({ name }) => `DROP TRIGGER ${quoted(name)}`);
  if (await unfinished(db)) {
    const rows = await values<[string, string, string]>(db, sql`SELECT name, tbl, made FROM restoring ORDER BY rowid`);
    await run(db, [...away, ...emptied(tables)]);
    return rows.map(([name, table, made]) => ({ name, table, sql: made }));
  }
  await run(db, [
    "CREATE TABLE restoring (name text NOT NULL, tbl text NOT NULL, made text NOT NULL) STRICT",
    ...there.map(({ name, table, sql: made }): Statement => ["INSERT INTO restoring VALUES (?, ?, ?)", [name, table, made]]),
    ...away,
    ...emptied(tables),
  ]);
  return there;
}

/** Fewer statements than rows, each below SQLite's limit of variables; few of them at once. */
const [MOST_VARIABLES, AT_ONCE] = [500, 40];

function* inserts({ table, rows }: PageLine, head: BackupHead): Generator<Statement> {
  const { columns } = head.tables[table]!;
  const into = `INSERT INTO ${quoted(table)} (${columns.map(quoted).join()}) VALUES `;
  const row = `(${columns.map(() => "?").join()})`;
  const perStatement = Math.max(1, Math.floor(MOST_VARIABLES / columns.length));
  for (let at = 0; at < rows.length; at += perStatement) {
    const some = rows.slice(at, at + perStatement);
    yield [into + some.map(() => row).join(), some.flatMap((cells) => cells.map(bound))];
  }
}

function* inParts(statements: Iterable<Statement>): Generator<readonly Statement[]> {
  let part: Statement[] = [];
  for (const statement of statements) {
    if (part.length === AT_ONCE) {
      yield part;
      part = [];
    }
    part.push(statement);
  }
  yield part;
}

const bound = (cell: Cell): string | number | null | Uint8Array =>
  cell !== null && typeof cell === "object" ? fromBase64(cell.base64) : cell;
