/** What was ordered from a source. Triggers count what of each line came in; an ending says that the rest will not. */
import { and, asc, desc, eq, inArray, lt, sql } from "drizzle-orm";
import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { CurrencyCode, IsoDate, Minor, Offer } from "../estimating/input.js";
import type { Served } from "../estimating/parts/orderOffers.js";
import type { Database, Instant } from "./database.js";
import { withoutNulls } from "./noun.js";
import { offersTable } from "./offers.js";
import { partKindsTable } from "./partKinds.js";
import type { Write } from "./trail.js";

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

/** An order as it will stand, and the statements that make it so. `lines` has one or more; freight is paid once. */
export function orderRows(
  db: Database,
  order: Omit<typeof ordersTable.$inferInsert, "freight">,
  lines: readonly { readonly offer: Offer; readonly packs: number; readonly jobs: readonly Served[] }[],
  names: ReadonlyMap<string, string>,
): { readonly record: OrderRecord; readonly writes: readonly Write[] } {
  const freight = Math.max(0, ...lines.map(({ offer }) => offer.freight ?? 0));
  const rows = lines.map(({ offer: { id: offerId, kind, packSize, price }, packs, jobs }, at) => ({
    ...{ id: `${order.id}-${at + 1}`, orderId: order.id, kind, offerId, packs, packSize, price, pieces: packs * packSize },
    ...{ jobs, came: 0, ended: false },
  }));
  const shown = rows.map((row) => ({ ...row, name: names.get(row.kind) ?? row.kind }));
  return {
    record: withSums({ ...order, freight, note: order.note ?? null }, shown),
    writes: [db.insert(ordersTable).values({ ...order, freight }), db.insert(orderLinesTable).values(rows)],
  };
}

/** What has not come of an order will not. */
export const endingOf = (db: Database, id: string, ending: NonNullable<OrderRecord["ending"]>): Write =>
  db.insert(orderEndingsTable).values({ id, ...ending });

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
export const onOrderRows = (db: Database) =>
  db
    .select({ kind: orderLinesTable.kind, pieces: sql<number>`sum(pieces - came)` })
    .from(orderLinesTable)
    .where(isOpen)
    .groupBy(orderLinesTable.kind);

export const piecesIn = (rows: Awaited<ReturnType<typeof onOrderRows>>): ReadonlyMap<string, number> =>
  new Map(rows.map(({ kind, pieces }) => [kind, pieces]));

export const onOrder = async (db: Database): Promise<ReadonlyMap<string, number>> => piecesIn(await onOrderRows(db));

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
  return orders.map((order) => {
    const own = lines.filter(({ line }) => line.orderId === order.id).map(({ line, name }) => ({ ...line, name }));
    const ending = endings.find(({ id }) => id === order.id);
    return { ...withSums(order, own), ...(ending && { ending: { at: ending.at, by: ending.by, reason: ending.reason } }) };
  });
}

function withSums(order: typeof ordersTable.$inferSelect, lines: readonly OrderLineRecord[]): OrderRecord {
  const goods = lines.reduce((sum, { packs, price }) => sum + packs * price, 0);
  return { ...withoutNulls<Omit<OrderRecord, "goods" | "total" | "lines">>(order), goods, total: goods + order.freight, lines };
}
