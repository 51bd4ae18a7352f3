/**
 * Parts that came in: from where, how many, what was paid, and how many proved good. Nothing is changed afterwards; tests are added.
 * The price paid becomes a dated offer, which tells what was seen of such parts from this source so far.
 */
import { and, asc, desc, eq, inArray, isNull, lt, lte, sql } from "drizzle-orm";
import { index, integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { GoodsIn } from "../estimating/closeout/learning/shareGood.js";
import type { CurrencyCode, IsoDate, Minor, Offer, OfferState, SeenGood } from "../estimating/input.js";
import type { Database, Instant } from "./database.js";
import { withoutNulls } from "./noun.js";
import { asOffer, offersTable } from "./offers.js";
import { orderLinesTable } from "./orders.js";
import { partKindsTable } from "./partKinds.js";
import type { Write } from "./trail.js";

export const goodsInTable = sqliteTable(
  "goods_in",
  {
    id: text("id").primaryKey(),
    at: text("at").notNull(),
    by: text("by").notNull(),
    receivedOn: text("received_on").notNull(),
    kind: text("kind")
      .notNull()
      .references(() => partKindsTable.id),
    source: text("source").notNull(),
    state: text("state").$type<OfferState>().notNull(),
    pieces: integer("pieces").notNull(),
    currency: text("currency").notNull(),
    paid: integer("paid").notNull(),
    freight: integer("freight"),
    offerId: text("offer_id")
      .notNull()
      .references(() => offersTable.id),
    orderLineId: text("order_line_id").references(() => orderLinesTable.id),
    note: text("note"),
  },
  (table) => [index("goods_in_at").on(table.at, table.id), index("goods_in_kind").on(table.kind, table.id)],
);

export const goodsInTestsTable = sqliteTable(
  "goods_in_tests",
  {
    id: text("id").primaryKey(),
    goodsInId: text("goods_in_id")
      .notNull()
      .references(() => goodsInTable.id),
    at: text("at").notNull(),
    by: text("by").notNull(),
    good: integer("good").notNull(),
    bad: integer("bad").notNull(),
  },
  (table) => [index("goods_in_tests_lot").on(table.goodsInId)],
);

/** Kept up by a trigger as tests are added. */
export const seenGoodTable = sqliteTable(
  "seen_good",
  {
    source: text("source").notNull(),
    state: text("state").$type<OfferState>().notNull(),
    good: integer("good").notNull(),
    bad: integer("bad").notNull(),
  },
  (table) => [primaryKey({ columns: [table.source, table.state] })],
);

export interface GoodsInValue {
  readonly receivedOn: IsoDate;
  readonly kind: string;
  readonly source: string;
  readonly state: OfferState;
  /** 1 or more. */
  readonly pieces: number;
  readonly currency: CurrencyCode;
  /** For all the pieces, freight apart. */
  readonly paid: Minor;
  readonly freight?: Minor;
  /** Line of an order. */
  readonly orderLineId?: string;
  readonly note?: string;
  readonly by: string;
}

export interface GoodsInRecord extends GoodsInValue {
  readonly id: string;
  readonly at: Instant;
  readonly name: string;
  /** The dated offer that the price paid became. */
  readonly offerId: string;
  /** So far; tests add up. */
  readonly tested: SeenGood;
}

export const addGoodsIn = (db: Database, { name: _, tested: __, ...row }: GoodsInRecord): Write =>
  db.insert(goodsInTable).values(row);

/** A trigger takes no more pieces than came in. */
export const addTest = (db: Database, row: typeof goodsInTestsTable.$inferInsert): Write =>
  db.insert(goodsInTestsTable).values(row);

type Way = Pick<GoodsInValue, "kind" | "source" | "state" | "currency"> & { readonly receivedOn?: IsoDate };

/** The newest offer of this way to get the part, made by that day. */
export async function earlierOffer(db: Database, { kind, source, state, currency, receivedOn }: Way): Promise<Offer | undefined> {
  const [row] = await db
    .select()
    .from(offersTable)
    .where(
      and(
        eq(offersTable.kind, kind),
        eq(offersTable.source, source),
        eq(offersTable.state, state),
        eq(offersTable.currency, currency),
        isNull(offersTable.withdrawal),
        ...(receivedOn === undefined ? [] : [lte(offersTable.on, receivedOn)]),
      ),
    )
    .orderBy(desc(offersTable.on), desc(offersTable.id))
    .limit(1);
  return row && asOffer(withoutNulls(row));
}

/** Writes what was seen of such parts from this source into an offer, where anything was. */
export function tellSeen(
  db: Database,
  offerId: string,
  { source, state }: { readonly source: string; readonly state: OfferState },
  at: Instant,
): Write {
  const seen = sql`(select json_object('good', good, 'bad', bad) from ${seenGoodTable}
    where ${seenGoodTable.source} = ${source} and ${seenGoodTable.state} = ${state})`;
  return db
    .update(offersTable)
    .set({ seenGood: seen as never, version: sql`${offersTable.version} + 1`, updatedAt: at })
    .where(and(eq(offersTable.id, offerId), sql`${offersTable.seenGood} is not ${seen}`, sql`${seen} is not null`));
}

const shown = {
  goods: goodsInTable,
  name: partKindsTable.name,
  good: sql<number>`coalesce((select sum(good) from ${goodsInTestsTable} where goods_in_id = ${goodsInTable.id}), 0)`,
  bad: sql<number>`coalesce((select sum(bad) from ${goodsInTestsTable} where goods_in_id = ${goodsInTable.id}), 0)`,
};
type Shown = {
  readonly goods: typeof goodsInTable.$inferSelect;
  readonly name: string;
  readonly good: number;
  readonly bad: number;
};
const recordOf = ({ goods, name, good, bad }: Shown): GoodsInRecord => ({
  ...withoutNulls<Omit<GoodsInRecord, "name" | "tested">>(goods),
  name,
  tested: { good, bad },
});

export async function findGoodsIn(db: Database, id: string): Promise<GoodsInRecord | undefined> {
  const [row] = await db
    .select(shown)
    .from(goodsInTable)
    .innerJoin(partKindsTable, eq(partKindsTable.id, goodsInTable.kind))
    .where(eq(goodsInTable.id, id));
  return row && recordOf(row);
}

/** Newest first; `before` is the last id of the page before. Ids rise with time. */
export async function goodsInPage(db: Database, limit: number, before?: string): Promise<GoodsInRecord[]> {
  const rows = await db
    .select(shown)
    .from(goodsInTable)
    .innerJoin(partKindsTable, eq(partKindsTable.id, goodsInTable.kind))
    .where(before === undefined ? undefined : lt(goodsInTable.id, before))
    .orderBy(desc(goodsInTable.id))
    .limit(limit);
  return rows.map(recordOf);
}

/** All that was tested, by source and state, for `sharesGood`. */
export async function goodsTested(db: Database, sources?: readonly string[]): Promise<GoodsIn[]> {
  const rows = await db
    .select()
    .from(seenGoodTable)
    .where(sources && inArray(seenGoodTable.source, [...sources]))
    .orderBy(asc(seenGoodTable.state), asc(seenGoodTable.source));
  return rows.map(({ good, bad, ...lot }) => ({ ...lot, good, pieces: good + bad }));
}
