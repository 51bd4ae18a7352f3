import { eq } from "drizzle-orm";
import { keptUnit, unitRecord } from "../../acts/shapes/resources.js";
import type { Kept } from "../../records/columns.js";
import { units as records, type UnitRecord, unitsTable } from "../../records/units.js";
import { resource } from "./resource.js";

export const units = resource<UnitRecord, UnitRecord & Kept>({
  path: "/api/units",
  one: "unit",
  many: "units",
  value: unitRecord,
  kept: keptUnit,
  narrow: { owner: "Only units of this owner" },
  ...records,
  list: (db, wanted, { owner }) => records.list(db, wanted, owner ? eq(unitsTable.ownerId, owner) : undefined),
});
