/**
 * Parts that came in: from where, how many, what was paid, and how many proved good. Nothing is changed afterwards; tests are added.
 * The price paid becomes a dated offer, which tells what was seen of such parts from this source so far.
 */
import { and, asc, desc, eq, inArray, lt, lte, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import { index, integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { GoodsIn } from "../estimating/closeout/learning/shareGood.js";
import type { CurrencyCode, IsoDate, Minor, Offer, OfferState, SeenGood } from "../estimating/input.js";
import { timesOver } from "../estimating/money/rounding.js";
import { isRefused, isTaken } from "./constraint.js";
import type { Database, Instant } from "./database.js";
import { withoutNulls } from "./noun.js";
import { asOffer, offersTable } from "./offers.js";
import { findOrderLine, orderLinesTable } from "./orders.js";
import { partKinds, partKindsTable } from "./partKinds.js";
import { putInStock } from "./stock.js";

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
  (table) => [index("goods_in_at").on(table.at, table.id)],
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
  /** Absent: as this source offered the part before. */
  readonly packSize?: number;
  readonly leadDays?: number;
  /** Line of an order. */
  readonly orderLineId?: string;
  readonly note?: string;
  readonly by: string;
  /** Tested at once. */
  readonly tested?: SeenGood;
}

export interface GoodsInRecord extends Omit<GoodsInValue, "packSize" | "leadDays" | "tested"> {
  readonly id: string;
  readonly at: Instant;
  readonly name: string;
  /** The dated offer that the price paid became. */
  readonly offerId: string;
  /** So far; tests add up. */
  readonly tested: SeenGood;
}

export type GoodsInOutcome =
  | { readonly is: "in"; readonly record: GoodsInRecord }
  | { readonly is: "unknown"; readonly field: "kind" | "orderLineId"; readonly id: string }
  | { readonly is: "other part"; readonly kind: string }
  /** This source has not offered the part before, so this must be said. */
  | { readonly is: "missing"; readonly field: "packSize" | "leadDays" }
  | { readonly is: "too many tested"; readonly pieces: number };

/** The same goods sent twice come in once. */
export async function bringIn(db: Database, id: string, value: GoodsInValue, at: Instant): Promise<GoodsInOutcome> {
  const before = await findGoodsIn(db, id);
  if (before) return { is: "in", record: before };
  const { kind, source, state, pieces, orderLineId, tested, packSize: _pack, leadDays: _lead, ...rest } = value;
  if (!(await partKinds.find(db, kind))) return { is: "unknown", field: "kind", id: kind };
  const line = orderLineId === undefined ? undefined : await findOrderLine(db, orderLineId);
  if (orderLineId !== undefined && !line) return { is: "unknown", field: "orderLineId", id: orderLineId };
  if (line && line.kind !== kind) return { is: "other part", kind: line.kind };
  if (tested && tested.good + tested.bad > pieces) return { is: "too many tested", pieces };
  const offer = await offerOf(db, `in-${id}`, value);
  if ("is" in offer) return offer;

  const { again, ...priced } = offer;
  const { id: offerId, ...offerValue } = priced;
  const row = { ...rest, id, at, kind, source, state, pieces, offerId, ...(orderLineId !== undefined && { orderLineId }) };
  const writes: BatchItem<"sqlite">[] = [
    ...(again ? [] : [db.insert(offersTable).values({ ...offerValue, id: offerId, version: 1, createdAt: at, updatedAt: at })]),
    db.insert(goodsInTable).values(row),
    putInStock(db, { id: `in-${id}`, kind, pieces, goodsInId: id, by: value.by, at }),
    ...(tested && tested.good + tested.bad > 0
      ? [db.insert(goodsInTestsTable).values({ id: `${id}-1`, goodsInId: id, at, by: value.by, ...tested })]
      : []),
    tellSeen(db, offerId, { source, state }, at),
  ];
  try {
    await db.batch(writes as [BatchItem<"sqlite">, ...BatchItem<"sqlite">[]]);
  } catch (error) {
    if (!isTaken(error)) throw error;
  }
  return { is: "in", record: (await findGoodsIn(db, id))! };
}

/** What such parts were offered at before, at the price paid now; the same offer of that day where there is one (`again`). */
async function offerOf(
  db: Database,
  id: string,
  value: GoodsInValue,
): Promise<(Offer & { readonly again: boolean }) | Extract<GoodsInOutcome, { is: "missing" }>> {
  const { kind, source, state, currency, receivedOn: on, pieces, paid } = value;
  const earlier = await earlierOffer(db, value);
  const packSize = value.packSize ?? earlier?.packSize;
  const leadDays = value.leadDays ?? earlier?.leadDays;
  if (packSize === undefined) return { is: "missing", field: "packSize" };
  if (leadDays === undefined) return { is: "missing", field: "leadDays" };
  const price = timesOver(paid, packSize, pieces);
  const { id: _, on: __, available: ___, seenGood: ____, freight: paidBefore, ...kept } = earlier ?? ({} as Partial<Offer>);
  const freight = value.freight ?? paidBefore;
  const offer: Offer = {
    ...kept,
    ...{ id, kind, source, on, currency, price, packSize, leadDays, state },
    ...(freight !== undefined && { freight }),
  };
  const same = earlier?.on === on && earlier.price === price && earlier.packSize === packSize && earlier.freight === freight;
  return same ? { ...earlier, again: true } : { ...offer, again: false };
}

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
        ...(receivedOn === undefined ? [] : [lte(offersTable.on, receivedOn)]),
      ),
    )
    .orderBy(desc(offersTable.on), desc(offersTable.id))
    .limit(1);
  return row && asOffer(withoutNulls(row));
}

export type TestOutcome =
  | { readonly is: "tested"; readonly record: GoodsInRecord }
  | { readonly is: "missing" }
  | { readonly is: "too many tested"; readonly pieces: number };

/** Pieces of goods that came in earlier, tested now. The same test sent twice counts once. */
export async function testGoods(
  db: Database,
  { id, goodsInId, good, bad, by }: SeenGood & { readonly id: string; readonly goodsInId: string; readonly by: string },
  at: Instant,
): Promise<TestOutcome> {
  const goods = await findGoodsIn(db, goodsInId);
  if (!goods) return { is: "missing" };
  const answered = async (now: GoodsInRecord): Promise<TestOutcome | undefined> => {
    const [before] = await db.select().from(goodsInTestsTable).where(eq(goodsInTestsTable.id, id));
    if (before) return { is: "tested", record: now };
    const left = now.pieces - now.tested.good - now.tested.bad;
    return good + bad > left ? { is: "too many tested", pieces: left } : undefined;
  };
  const before = await answered(goods);
  if (before) return before;
  try {
    await db.batch([
      db.insert(goodsInTestsTable).values({ id, goodsInId, at, by, good, bad }),
      tellSeen(db, goods.offerId, goods, at),
    ]);
  } catch (error) {
    // Another tablet was quicker: the trigger takes no more pieces than came in.
    const quicker = isRefused(error) ? await answered((await findGoodsIn(db, goodsInId))!) : undefined;
    if (!quicker) throw error;
    return quicker;
  }
  return { is: "tested", record: (await findGoodsIn(db, goodsInId))! };
}

/** Writes what was seen of such parts from this source into an offer, where anything was. */
function tellSeen(
  db: Database,
  offerId: string,
  { source, state }: { readonly source: string; readonly state: OfferState },
  at: Instant,
) {
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
