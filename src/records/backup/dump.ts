/** Writes a backup, a page of rows at a time, so that memory does not grow with the shop. */
import { type SQL, sql } from "drizzle-orm";
import type { Database, Instant } from "../database.js";
import { snapshotOf } from "../snapshot.js";
import { type BackupHead, type Cell, chainLine, type FileLine, FORMAT, FORMAT_VERSION, toBase64 } from "./format.js";
import { schemaOf, type Table, tablesOf } from "./tables.js";
import { values } from "./values.js";

/** About as many characters as one line takes: a few of them are what memory holds at once. */
const PAGE = 200_000;
const MOST_ROWS = 500;

/** The shop was written to meanwhile: what was read does not belong together. */
export class ShopMoved extends Error {}

/** Bytes that are kept beside the database; each is read when its turn comes. */
export interface KeptFile {
  readonly name: string;
  readonly type: string;
  /** Undefined where they are lost: the rest is backed up all the same. */
  readonly read: () => Promise<Uint8Array | undefined>;
}

/** `told`: how much of the rows was read. Of a file as it stands at one moment. Over HTTP it throws `ShopMoved` where something was written while it read: no file ever holds half of a change. */
export async function* backupLines(
  live: Database,
  madeAt: Instant,
  filesOf: (db: Database) => Promise<readonly KeptFile[]> = async () => [],
  told: (share: number) => void = () => undefined,
): AsyncGenerator<string> {
  const { db, end, still } = await snapshotOf(live);
  try {
    yield* linesOf(db, madeAt, () => filesOf(db), still, told);
  } finally {
    end();
  }
}

/** `still`: nothing that is written meanwhile is seen. */
async function* linesOf(
  db: Database,
  madeAt: Instant,
  filesOf: () => Promise<readonly KeptFile[]>,
  still: boolean,
  told: (share: number) => void,
): AsyncGenerator<string> {
  const { kept } = await tablesOf(db);
  const before = await marks(db, kept);
  const files = await filesOf();
  const head: BackupHead = {
    format: FORMAT,
    version: FORMAT_VERSION,
    schema: await schemaOf(db),
    madeAt,
    tables: Object.fromEntries(kept.map(({ name, columns }, at) => [name, { columns, rows: before[at]!.rows }])),
    files: files.length,
  };
  let [lines, hash] = [0, ""];
  const line = async (value: object): Promise<string> => {
    const text = JSON.stringify(value);
    lines += 1;
    hash = await chainLine(hash, text);
    return `${text}\n`;
  };
  yield await line(head);
  const all = before.reduce((sum, { characters }) => sum + characters, 1);
  let read = 0;
  for (const [at, table] of kept.entries()) {
    const { rows, characters } = before[at]!;
    const perPage = Math.max(1, Math.min(MOST_ROWS, Math.floor((PAGE * rows) / Math.max(1, characters))));
    for await (const page of pages(db, table, perPage)) {
      yield await line({ table: table.name, rows: page });
      read += (characters * page.length) / rows;
      told(read / all);
    }
  }
  for (const { name, type, read } of files)
    yield await line({ file: name, type, base64: toBase64((await read()) ?? new Uint8Array()) } satisfies FileLine);
  if (!still && JSON.stringify(await marks(db, kept)) !== JSON.stringify(before))
    throw new ShopMoved("The shop was written to meanwhile; make the backup again.");
  yield `${JSON.stringify({ end: true, lines, sha256: hash })}\n`;
}

const name = (text: string): SQL => sql.identifier(text) as unknown as SQL;
const list = (columns: readonly string[]) => sql.join(columns.map(name), sql`, `);

async function* pages(db: Database, { name: table, columns }: Table, perPage: number): AsyncGenerator<Cell[][]> {
  let after = -1;
  for (;;) {
    const rows = await values<unknown[]>(
      db,
      sql`SELECT rowid, ${list(columns)} FROM ${name(table)} WHERE rowid > ${after} ORDER BY rowid LIMIT ${perPage}`,
    );
    if (rows.length > 0) yield rows.map(([, ...cells]) => cells.map(cellOf));
    if (rows.length < perPage) return;
    after = rows.at(-1)![0] as number;
  }
}

const cellOf = (value: unknown): Cell =>
  value instanceof ArrayBuffer ? { base64: toBase64(new Uint8Array(value)) } : (value as string | number | null);

interface Mark {
  readonly rows: number;
  readonly characters: number;
  readonly last: number;
  readonly versions: number;
}

/** What every write moves: how many rows, how much in them, the last of them, and the sum of their versions. */
async function marks(db: Database, tables: readonly Table[]): Promise<Mark[]> {
  const one = ({ name: table, columns }: Table, at: number) => {
    const sizes = columns.map((column) => sql`coalesce(length(${name(column)}), 0)`);
    const versions = columns.includes("version") ? sql`coalesce(sum(${name("version")}), 0)` : sql`0`;
    return sql`SELECT ${at}, count(*), coalesce(sum(${sql.join(sizes, sql` + `)}), 0), coalesce(max(rowid), 0), ${versions} FROM ${name(table)}`;
  };
  // One statement, so that all of it is read at one moment.
  const rows = await values<[number, number, number, number, number]>(
    db,
    sql`${sql.join(tables.map(one), sql` UNION ALL `)} ORDER BY 1`,
  );
  return rows.map(([, count, characters, last, versions]) => ({ rows: count, characters, last, versions }));
}
