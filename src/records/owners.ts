/** People and firms who bring units in. */
import { sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Party } from "../estimating/input.js";
import { keptColumns } from "./columns.js";
import { noun } from "./noun.js";

export interface Owner extends Party {
  readonly notes?: string;
  /** Of the owner's documents, such as de; the shop's when absent. */
  readonly language?: string;
  /** BCP 47, such as de-AT: how the owner writes figures and days. */
  readonly locale?: string;
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
  language: text("language"),
  locale: text("locale"),
});

export const owners = noun<Owner>(ownersTable);
