/** The physical things brought in. Condition and accessories belong to a visit: see jobs. */
import { eq, sql } from "drizzle-orm";
import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Hazard, Minor } from "../estimating/input.js";
import { keptColumns } from "./columns.js";
import type { Database } from "./database.js";
import { modelsTable } from "./models.js";
import { noun } from "./noun.js";
import { ownersTable } from "./owners.js";

export interface UnitRecord {
  readonly ownerId: string;
  /** The teardown map it follows, when there is one. */
  readonly modelId?: string;
  readonly maker: string;
  readonly model: string;
  readonly serial?: string;
  /** Minor units of the shop's currency. */
  readonly declaredValue?: Minor;
  readonly hazards?: readonly Hazard[];
  readonly notes?: string;
}

export const unitsTable = sqliteTable(
  "units",
  {
    ...keptColumns(),
    ownerId: text("owner_id")
      .notNull()
      .references(() => ownersTable.id),
    modelId: text("model_id").references(() => modelsTable.id),
    maker: text("maker").notNull(),
    model: text("model").notNull(),
    serial: text("serial"),
    declaredValue: integer("declared_value"),
    hazards: text("hazards", { mode: "json" }).$type<readonly Hazard[]>(),
    notes: text("notes"),
  },
  (table) => [
    index("units_owner").on(table.ownerId),
    index("units_maker_model").on(sql`lower(${table.maker})`, sql`lower(${table.model})`),
  ],
);

export const units = noun<UnitRecord>(unitsTable);

export const unitsOf = (db: Database, ownerId: string) => units.where(db, eq(unitsTable.ownerId, ownerId));
