import { fileURLToPath } from "node:url";
import { migrate } from "drizzle-orm/libsql/migrator";
import type { Database } from "../records/database.js";

export const MIGRATIONS = fileURLToPath(new URL("../../migrations/", import.meta.url));

/** Brings a database up to the newest schema; what is applied already is left alone. */
export const migrateDatabase = (db: Database): Promise<void> => migrate(db, { migrationsFolder: MIGRATIONS });
