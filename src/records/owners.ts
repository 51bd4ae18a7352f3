/** People and firms who bring units in. */
import { sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Party } from "../estimating/input.js";
import { keptColumns } from "./columns.js";
import { noun } from "./noun.js";

export interface Owner extends Party {
  readonly notes?: string;
}

export const ownersTable = sqliteTable("owners", {
  ...keptColumns(),
  name: text("name").notNull(),
  address: text("address", { mode: "json" }).$type<readonly string[]>(),
  phone: text("phone"),
  email: text("email"),
  taxNumber: text("tax_number"),
  registration: text("registration"),
  notes: text("notes"),
});

export const owners = noun<Owner>(ownersTable);
