import { keptOwner, owner } from "../../acts/shapes/resources.js";
import type { Kept } from "../../records/columns.js";
import { type Owner, owners as records } from "../../records/owners.js";
import { resource } from "./resource.js";

export const owners = resource<Owner, Owner & Kept>({
  path: "/api/owners",
  one: "owner",
  many: "owners",
  value: owner,
  kept: keptOwner,
  ...records,
  list: (db, wanted) => records.list(db, wanted),
});
