import { and, sql } from "drizzle-orm";
import { faultsIn, shopRateBook } from "../../acts/checked.js";
import { keptModel, model } from "../../acts/shapes/resources.js";
import type { Kept } from "../../records/columns.js";
import { type Model, modelsTable, models as records } from "../../records/models.js";
import { resource } from "./resource.js";

export const models = resource<Model, Model & Kept>({
  path: "/api/models",
  one: "model",
  many: "models",
  value: model,
  kept: keptModel,
  narrow: { maker: "Only models of this maker", model: "Only this model" },
  ...records,
  list: (db, wanted, { maker, model: name }) =>
    records.list(
      db,
      wanted,
      and(
        maker ? sql`lower(${modelsTable.maker}) = lower(${maker})` : undefined,
        name ? sql`lower(${modelsTable.model}) = lower(${name})` : undefined,
      ),
    ),
  check: async (db, { map }) =>
    faultsIn({ map }, await shopRateBook(db), "/map").map((fault) => ({ ...fault, pointer: `/map${fault.pointer}` })),
});
