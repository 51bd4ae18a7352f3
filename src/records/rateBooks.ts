/** Rate books: numbered versions that never change. A change is a new version. */
import { and, asc, desc, eq, gt, max, type SQL, sql } from "drizzle-orm";
import { integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { IsoDate, RateBook } from "../estimating/input.js";
import type { Kept } from "./columns.js";
import type { Database, Instant } from "./database.js";
import { type Keys, type Made, type Page, type PageWanted, page } from "./noun.js";

export type RateBookValue = Omit<RateBook, "id" | "version">;
export type KeptRateBook = Kept & { readonly book: RateBook };

export const rateBooksTable = sqliteTable(
  "rate_books",
  {
    id: text("id").notNull(),
    version: integer("version").notNull(),
    name: text("name").notNull(),
    inForceFrom: text("in_force_from").notNull(),
    book: text("book", { mode: "json" }).$type<RateBook>().notNull(),
    createdAt: text("created_at").notNull(),
    updatedAt: text("updated_at").notNull(),
  },
  (table) => [primaryKey({ columns: [table.id, table.version] })],
);

type Row = typeof rateBooksTable.$inferSelect;
const kept = ({ id, version, book, createdAt, updatedAt }: Row): KeptRateBook => ({ id, version, book, createdAt, updatedAt });

/** A version as it will stand, and the statement that writes it; refused by the database where it stands already. */
function made(db: Database, id: string, version: number, value: RateBookValue, at: Instant): Made<KeptRateBook> {
  const book = { ...value, id, version };
  const row = { id, version, name: book.name, inForceFrom: book.inForceFrom, book, createdAt: at, updatedAt: at };
  return { record: kept(row), write: db.insert(rateBooksTable).values(row) };
}

/** Of these, newest first, the one that estimates of a day are begun with. */
export const inForceOn = <B extends Pick<RateBook, "inForceFrom">>(newestFirst: readonly B[], day: IsoDate): B | undefined =>
  newestFirst.find(({ inForceFrom }) => inForceFrom <= day) ?? newestFirst.at(-1);

/** Versions that may be in force on a day or begin after it, newest first: mostly one. `id` may be a query. */
export const booksSince = (db: Database, id: string | SQL, day: IsoDate) =>
  db
    .select()
    .from(rateBooksTable)
    .where(
      and(
        sql`${rateBooksTable.id} = ${id}`,
        sql`${rateBooksTable.version} >= coalesce((select max(version) from rate_books where id = ${id} and in_force_from <= ${day}), 0)`,
      ),
    )
    .orderBy(desc(rateBooksTable.version));

async function find(db: Database, id: string): Promise<KeptRateBook | undefined> {
  const [row] = await db
    .select()
    .from(rateBooksTable)
    .where(eq(rateBooksTable.id, id))
    .orderBy(desc(rateBooksTable.version))
    .limit(1);
  return row && kept(row);
}

export const rateBooks = {
  /** The newest version, in force or not yet. */
  find,
  /** The one that estimates of a day are begun with. */
  inForce: async (db: Database, id: string, day: IsoDate): Promise<KeptRateBook | undefined> => {
    const row = inForceOn(await booksSince(db, id, day), day);
    return row && kept(row);
  },

  /** Version 1, or the one it states where it comes from elsewhere. */
  made: (db: Database, id: string, value: RateBookValue, at: Instant, version = 1) => made(db, id, version, value, at),
  /** The next version; the old one stays. */
  changed: (db: Database, old: KeptRateBook, keys: Keys<RateBookValue>, at: Instant) =>
    made(db, old.id, old.version + 1, { ...old.book, ...(keys as Partial<RateBookValue>) }, at),

  findVersion: async (db: Database, id: string, version: number): Promise<KeptRateBook | undefined> => {
    const [row] = await db
      .select()
      .from(rateBooksTable)
      .where(and(eq(rateBooksTable.id, id), eq(rateBooksTable.version, version)));
    return row && kept(row);
  },

  /** The newest version of each book. */
  list: async (db: Database, { limit, after }: PageWanted): Promise<Page<KeptRateBook>> => {
    const newest = db
      .select({ id: rateBooksTable.id, version: max(rateBooksTable.version).as("newest") })
      .from(rateBooksTable)
      .groupBy(rateBooksTable.id)
      .as("newest_versions");
    const rows = await db
      .select()
      .from(rateBooksTable)
      .innerJoin(newest, and(eq(rateBooksTable.id, newest.id), eq(rateBooksTable.version, newest.version)))
      .where(after === undefined ? undefined : gt(rateBooksTable.id, after))
      .orderBy(asc(rateBooksTable.id))
      .limit(limit + 1);
    return page(
      rows.map((row) => kept(row.rate_books)),
      limit,
    );
  },
};
