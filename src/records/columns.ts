/** Columns every noun carries: an id given by the caller, and a version that moves by one with each change. */
import { integer, text } from "drizzle-orm/sqlite-core";

export const keptColumns = () => ({
  id: text("id").primaryKey(),
  version: integer("version").notNull(),
  createdAt: text("created_at").notNull(),
  updatedAt: text("updated_at").notNull(),
});

export interface Kept {
  readonly id: string;
  readonly version: number;
  readonly createdAt: string;
  readonly updatedAt: string;
}
