/** What was ordered from a source. Triggers count what of each line came in; an ending says that the rest will not. */
import { sql } from "drizzle-orm";
import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { offersTable } from "./offers.js";
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

/** A job that a line serves, and with how many pieces. */
export interface Serves {
  readonly job: string;
  readonly pieces: number;
}

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
    /** For one pack. */
    price: integer("price").notNull(),
    pieces: integer("pieces").notNull(),
    jobs: text("jobs", { mode: "json" }).$type<readonly Serves[]>().notNull(),
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
