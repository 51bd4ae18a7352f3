/**
 * The same functions for every noun. A row's columns carry the value's own names; an absent property is a null column.
 * Nothing is deleted. A write is one statement.
 */
import { and, asc, desc, eq, getTableColumns, gt, lt, not, type SQL, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { AnySQLiteColumn, SQLiteTable } from "drizzle-orm/sqlite-core";
import type { Kept } from "./columns.js";
import type { Database, Instant } from "./database.js";

/** One page of a list; `next` is the `after` of the following page. */
export interface Page<T> {
  readonly rows: readonly T[];
  readonly next?: string;
}

export interface PageWanted {
  readonly limit: number;
  readonly after?: string | undefined;
  readonly newestFirst?: boolean;
}

type KeptTable = SQLiteTable & { id: AnySQLiteColumn; version: AnySQLiteColumn };

/** Some of a value; undefined: emptied. */
export type Keys<Value> = { readonly [Key in keyof Value]?: Value[Key] | undefined };

/** A record as it will stand, and the statement that makes it so. */
export interface Made<Row> {
  readonly record: Row;
  readonly write: BatchItem<"sqlite">;
}

/** How one noun's records are found and written. */
export interface Rows<Value extends object, Row extends Kept = Value & Kept> {
  readonly find: (db: Database, id: string) => Promise<Row | undefined>;
  readonly made: (db: Database, id: string, value: Value, at: Instant) => Made<Row> | Promise<Made<Row>>;
  /** These keys alone, an undefined one emptied. Refused by the database where the record is no longer `old`. */
  readonly changed: (db: Database, old: Row, keys: Keys<Value>, at: Instant) => Made<Row> | Promise<Made<Row>>;
}

export interface Noun<Value extends object> extends Rows<Value> {
  /** `condition` narrows the list; `withdrawn`: those that count no more, in place of the others. */
  readonly list: (db: Database, wanted: PageWanted, condition?: SQL, withdrawn?: boolean) => Promise<Page<Value & Kept>>;
  readonly made: (db: Database, id: string, value: Value, at: Instant) => Made<Value & Kept>;
  readonly changed: (db: Database, old: Value & Kept, keys: Keys<Value>, at: Instant) => Made<Value & Kept>;
  /** All rows a condition picks, oldest first. */
  readonly where: (db: Database, condition: SQL | undefined, limit?: number) => Promise<(Value & Kept)[]>;
}

/** `standing`: those that count; others are found by id. */
export function noun<Value extends object>(table: KeptTable, standing?: SQL): Noun<Value> {
  type Stored = Value & Kept;
  const names = Object.keys(getTableColumns(table)).filter((name) => !["id", "version", "createdAt", "updatedAt"].includes(name));
  const columnsOf = (value: Value) =>
    Object.fromEntries(names.map((name) => [name, (value as Record<string, unknown>)[name] ?? null]));

  const find = async (db: Database, id: string): Promise<Stored | undefined> => {
    const [row] = await db.select().from(table).where(eq(table.id, id)).limit(1);
    return row && withoutNulls<Stored>(row);
  };

  const made = (db: Database, id: string, value: Value, at: Instant): Made<Stored> => {
    const kept = { id, version: 1, createdAt: at, updatedAt: at };
    const write = db.insert(table).values({ ...columnsOf(value), ...kept } as never);
    return { record: { ...value, ...kept }, write };
  };

  return {
    find,
    made,
    changed: (db, old, keys, at) => {
      const moved = { version: old.version + 1, updatedAt: at };
      const columns = Object.fromEntries(Object.entries(keys).map(([name, value]) => [name, value ?? null]));
      // Null where it was changed meanwhile, which the column refuses.
      const version = sql`CASE WHEN ${table.version} = ${old.version} THEN ${moved.version} END`;
      const set = { ...columns, ...moved, version };
      const write = db
        .update(table)
        .set(set as never)
        .where(eq(table.id, old.id));
      return { record: withoutNulls<Stored>({ ...old, ...columns, ...moved }), write };
    },
    where: async (db, condition, limit = 1000) => {
      const rows = await db.select().from(table).where(and(standing, condition)).orderBy(asc(table.id)).limit(limit);
      return rows.map((row) => withoutNulls<Stored>(row));
    },
    list: async (db, { limit, after, newestFirst }, condition, withdrawn = false) => {
      const which = withdrawn && standing ? not(standing) : standing;
      const beyond = after === undefined ? undefined : newestFirst ? lt(table.id, after) : gt(table.id, after);
      const order = newestFirst ? desc(table.id) : asc(table.id);
      const rows = await db
        .select()
        .from(table)
        .where(and(beyond, which, condition))
        .orderBy(order)
        .limit(limit + 1);
      return page(
        rows.map((row) => withoutNulls<Stored>(row)),
        limit,
      );
    },
  };
}

export function page<T extends { readonly id: string }>(rows: readonly T[], limit: number): Page<T> {
  const shown = rows.slice(0, limit);
  return rows.length > limit ? { rows: shown, next: shown.at(-1)!.id } : { rows: shown };
}

export function withoutNulls<T>(row: object): T {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null)) as T;
}

/** All pages of a list, a thousand rows at a time. */
export async function every<T>(list: (wanted: PageWanted) => Promise<Page<T>>): Promise<readonly T[]> {
  const rows: T[] = [];
  let after: string | undefined;
  do {
    const page: Page<T> = await list({ limit: 1000, after });
    rows.push(...page.rows);
    after = page.next;
  } while (after !== undefined);
  return rows;
}
