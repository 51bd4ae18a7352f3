/** Columns every noun carries: an id given by the caller, and a version that moves by one with each change. */
import { integer, text } from "drizzle-orm/sqlite-core";
import type { Instant } from "./database.js";

export const keptColumns = () => ({
  id: text("id").primaryKey(),
  version: integer("version").notNull(),
  createdAt: text("created_at").notNull(),
  updatedAt: text("updated_at").notNull(),
});

/** Of a person or a firm, as papers name them. */
export const partyColumns = () => ({
  name: text("name").notNull(),
  address: text("address", { mode: "json" }).$type<readonly string[]>(),
  phone: text("phone"),
  email: text("email"),
  taxNumber: text("tax_number"),
  registration: text("registration"),
});

export interface Kept {
  readonly id: string;
  readonly version: number;
  readonly createdAt: string;
  readonly updatedAt: string;
}

/** Kept on record, and counted nowhere any more. */
export interface Withdrawal {
  readonly at: Instant;
  readonly by: string;
  readonly reason: string;
  /** Id of what it was merged into, which all that named it names now. */
  readonly into?: string;
}

export const withdrawalColumn = () => ({ withdrawal: text("withdrawal", { mode: "json" }).$type<Withdrawal>() });
