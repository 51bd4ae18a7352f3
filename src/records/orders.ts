/** What was ordered from a source. Triggers count what of each line came in; an ending says that the rest will not. */
import { and, asc, desc, eq, inArray, lt, sql } from "drizzle-orm";
import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { CurrencyCode, IsoDate, Minor } from "../estimating/input.js";
import type { Served } from "../estimating/parts/orderOffers.js";
import { isTaken } from "./constraint.js";
import type { Database, Instant } from "./database.js";
import { withoutNulls } from "./noun.js";
import { asOffer, offers, offersTable } from "./offers.js";
import { partKindsTable } from "./partKinds.js";

export const ordersTable = sqliteTable("orders", {
  id: text("id").primaryKey(),
  at: text("at").notNull(),
  by: text("by").notNull(),
  source: text("source").notNull(),
  orderedOn: text("ordered_on").notNull(),
  currency: text("currency").notNull(),
  freight: integer("freight").notNull(),
  note: text("note"),
});

export const orderLinesTable = sqliteTable(
  "order_lines",
  {
    id: text("id").primaryKey(),
    orderId: text("order_id")
      .notNull()
      .references(() => ordersTable.id),
    kind: text("kind")
      .notNull()
      .references(() => partKindsTable.id),
    offerId: text("offer_id")
      .notNull()
      .references(() => offersTable.id),
    packs: integer("packs").notNull(),
    packSize: integer("pack_size").notNull(),
    price: integer("price").notNull(),
    pieces: integer("pieces").notNull(),
    jobs: text("jobs", { mode: "json" }).$type<readonly Served[]>().notNull(),
    came: integer("came").notNull(),
    ended: integer("ended", { mode: "boolean" }).notNull(),
  },
  (table) => [
    index("order_lines_order").on(table.orderId),
    index("order_lines_open").on(table.kind).where(sql`came < pieces and ended = 0`),
  ],
);

export const orderEndingsTable = sqliteTable("order_endings", {
  id: text("id")
    .primaryKey()
    .references(() => ordersTable.id),
  at: text("at").notNull(),
  by: text("by").notNull(),
  reason: text("reason").notNull(),
});

export interface OrderValue {
  readonly source: string;
  readonly orderedOn: IsoDate;
  readonly by: string;
  readonly note?: string;
  readonly lines: readonly {
    readonly offer: string;
    readonly packs: number;
    /** Jobs it is meant for. */
    readonly jobs?: readonly Served[];
  }[];
}

export interface OrderLineRecord {
  readonly id: string;
  readonly orderId: string;
  readonly kind: string;
  readonly name: string;
  readonly offerId: string;
  readonly packs: number;
  readonly packSize: number;
  /** For one pack. */
  readonly price: Minor;
  readonly pieces: number;
  readonly jobs: readonly Served[];
  /** Pieces that came in. */
  readonly came: number;
  /** The rest will not come. */
  readonly ended: boolean;
}

export interface OrderRecord {
  readonly id: string;
  readonly at: Instant;
  readonly by: string;
  readonly source: string;
  readonly orderedOn: IsoDate;
  readonly currency: CurrencyCode;
  /** Packs x price of the lines, and freight once. */
  readonly goods: Minor;
  readonly freight: Minor;
  readonly total: Minor;
  readonly note?: string;
  readonly lines: readonly OrderLineRecord[];
  readonly ending?: { readonly at: Instant; readonly by: string; readonly reason: string };
}

export type OrderFault =
  | { readonly is: "offer unknown"; readonly offer: string }
  | { readonly is: "other source"; readonly offer: string; readonly source: string }
  | { readonly is: "other currency"; readonly offer: string; readonly currency: string }
  | { readonly is: "below minimum"; readonly offer: string; readonly packs: number; readonly minimum: number };

export type OrderOutcome = { readonly is: "ordered"; readonly record: OrderRecord } | OrderFault;

/** The same order sent twice is written once. `lines` has one or more, with 1 pack or more. */
export async function placeOrder(db: Database, id: string, value: OrderValue, at: Instant): Promise<OrderOutcome> {
  const before = await findOrder(db, id);
  if (before) return { is: "ordered", record: before };
  const rows: (typeof orderLinesTable.$inferInsert)[] = [];
  let freight = 0;
  let currency: string | undefined;
  for (const [number, { offer: offerId, packs, jobs = [] }] of value.lines.entries()) {
    const kept = await offers.find(db, offerId);
    if (!kept) return { is: "offer unknown", offer: offerId };
    const offer = asOffer(kept);
    if (offer.source !== value.source) return { is: "other source", offer: offerId, source: offer.source };
    currency ??= offer.currency;
    if (offer.currency !== currency) return { is: "other currency", offer: offerId, currency: offer.currency };
    const minimum = offer.minimumPacks ?? 1;
    if (packs < minimum) return { is: "below minimum", offer: offerId, packs, minimum };
    freight = Math.max(freight, offer.freight ?? 0);
    const { kind, packSize, price } = offer;
    const line = { id: `${id}-${number + 1}`, orderId: id, kind, offerId, packs, packSize, price, pieces: packs * packSize };
    rows.push({ ...line, jobs, came: 0, ended: false });
  }
  const { source, orderedOn, by, note } = value;
  const order = { id, at, by, source, orderedOn, currency: currency!, freight, ...(note !== undefined && { note }) };
  try {
    await db.batch([db.insert(ordersTable).values(order), db.insert(orderLinesTable).values(rows)]);
  } catch (error) {
    if (!isTaken(error)) throw error;
  }
  return { is: "ordered", record: (await findOrder(db, id))! };
}

/** Says that what has not come of an order will not. */
export async function endOrder(
  db: Database,
  id: string,
  { by, reason }: { readonly by: string; readonly reason: string },
  at: Instant,
): Promise<OrderRecord | undefined> {
  const order = await findOrder(db, id);
  if (!order) return undefined;
  await db.insert(orderEndingsTable).values({ id, at, by, reason }).onConflictDoNothing();
  return findOrder(db, id);
}

export const findOrder = async (db: Database, id: string): Promise<OrderRecord | undefined> =>
  (await withLines(db, await db.select().from(ordersTable).where(eq(ordersTable.id, id))))[0];

/** Newest first; `before` is the last id of the page before. Ids rise with time. */
export const orderPage = async (db: Database, limit: number, before?: string): Promise<OrderRecord[]> =>
  withLines(
    db,
    await db
      .select()
      .from(ordersTable)
      .where(before === undefined ? undefined : lt(ordersTable.id, before))
      .orderBy(desc(ordersTable.id))
      .limit(limit),
  );

const isOpen = sql`came < pieces and ended = 0`;

/** Orders of which something is still to come, oldest first. */
export async function openOrders(db: Database): Promise<OrderRecord[]> {
  const open = db.select({ id: orderLinesTable.orderId }).from(orderLinesTable).where(isOpen);
  return withLines(db, await db.select().from(ordersTable).where(inArray(ordersTable.id, open)).orderBy(asc(ordersTable.id)));
}

/** Pieces still to come, by part kind. */
export async function onOrder(db: Database): Promise<ReadonlyMap<string, number>> {
  const { kind } = orderLinesTable;
  const rows = await db
    .select({ kind, pieces: sql<number>`sum(pieces - came)` })
    .from(orderLinesTable)
    .where(isOpen)
    .groupBy(kind);
  return new Map(rows.map((row) => [row.kind, row.pieces]));
}

export async function findOrderLine(db: Database, id: string): Promise<OrderLineRecord | undefined> {
  const [row] = await db
    .select({ line: orderLinesTable, name: partKindsTable.name })
    .from(orderLinesTable)
    .innerJoin(partKindsTable, eq(partKindsTable.id, orderLinesTable.kind))
    .where(eq(orderLinesTable.id, id));
  return row && { ...row.line, name: row.name };
}

async function withLines(db: Database, orders: readonly (typeof ordersTable.$inferSelect)[]): Promise<OrderRecord[]> {
  if (orders.length === 0) return [];
  const ids = orders.map(({ id }) => id);
  const [lines, endings] = await Promise.all([
    db
      .select({ line: orderLinesTable, name: partKindsTable.name })
      .from(orderLinesTable)
      .innerJoin(partKindsTable, eq(partKindsTable.id, orderLinesTable.kind))
      .where(and(inArray(orderLinesTable.orderId, ids)))
      .orderBy(asc(orderLinesTable.id)),
    db.select().from(orderEndingsTable).where(inArray(orderEndingsTable.id, ids)),
  ]);
  return orders.map((order): OrderRecord => {
    const own = lines.filter(({ line }) => line.orderId === order.id).map(({ line, name }) => ({ ...line, name }));
    const goods = own.reduce((sum, { packs, price }) => sum + packs * price, 0);
    const ending = endings.find(({ id }) => id === order.id);
    return {
      ...withoutNulls<Omit<OrderRecord, "goods" | "total" | "lines">>(order),
      ...{ goods, total: goods + order.freight, lines: own },
      ...(ending && { ending: { at: ending.at, by: ending.by, reason: ending.reason } }),
    };
  });
}
