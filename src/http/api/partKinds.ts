import { eq } from "drizzle-orm";
import { faultsIn, shopRateBook } from "../../acts/checked.js";
import { keptPartKind, partKindValue } from "../../acts/shapes/resources.js";
import type { Kept } from "../../records/columns.js";
import { type PartKindValue, partKindsTable, partKinds as records } from "../../records/partKinds.js";
import { resource } from "./resource.js";

export const partKinds = resource<PartKindValue, PartKindValue & Kept>({
  path: "/api/part-kinds",
  one: "part kind",
  many: "part kinds",
  value: partKindValue,
  kept: keptPartKind,
  narrow: { type: "Only kinds of this part type" },
  ...records,
  list: (db, wanted, { type }) => records.list(db, wanted, type ? eq(partKindsTable.type, type) : undefined),
  check: async (db, value) => faultsIn({ kinds: [{ ...value, id: "new" }] }, await shopRateBook(db), "/kinds/0"),
});
