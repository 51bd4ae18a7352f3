/** Teardown maps by maker and model. */
import { and, sql } from "drizzle-orm";
import { sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { Hazard, TeardownMap } from "../estimating/input.js";
import { keptColumns } from "./columns.js";
import type { Database } from "./database.js";
import { noun } from "./noun.js";

export interface Model {
  readonly maker: string;
  readonly model: string;
  readonly map: TeardownMap;
  readonly hazards?: readonly Hazard[];
  readonly notes?: string;
}

export const modelsTable = sqliteTable(
  "models",
  {
    ...keptColumns(),
    maker: text("maker").notNull(),
    model: text("model").notNull(),
    map: text("map", { mode: "json" }).$type<TeardownMap>().notNull(),
    hazards: text("hazards", { mode: "json" }).$type<readonly Hazard[]>(),
    notes: text("notes"),
  },
  (table) => [uniqueIndex("models_maker_model").on(sql`lower(${table.maker})`, sql`lower(${table.model})`)],
);

export const models = noun<Model>(modelsTable);

/** Upper and lower case of A to Z are the same maker. */
export async function modelNamed(db: Database, maker: string, model: string) {
  const same = and(sql`lower(${modelsTable.maker}) = lower(${maker})`, sql`lower(${modelsTable.model}) = lower(${model})`);
  const [found] = await models.where(db, same, 1);
  return found;
}
