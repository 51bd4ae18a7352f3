/** Parts that came in: from where, how many, what was paid, and how many proved good. Nothing is changed afterwards; tests are added. */
import { index, integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { OfferState } from "../estimating/input.js";
import { offersTable } from "./offers.js";
import { orderLinesTable } from "./orders.js";
import { partKindsTable } from "./partKinds.js";

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
    /** For all the pieces, freight apart. */
    paid: integer("paid").notNull(),
    freight: integer("freight"),
    /** The dated offer that the price paid became. */
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
