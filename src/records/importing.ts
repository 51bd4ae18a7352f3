/** Writes everything a file says, or nothing: one batch, which fails as a whole when one row was changed or taken meanwhile. */
import { eq, getTableColumns, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Kept } from "./columns.js";
import { isRefused } from "./constraint.js";
import type { Database, Instant } from "./database.js";
import { modelsTable } from "./models.js";
import { offersTable } from "./offers.js";
import { partKindsTable } from "./partKinds.js";

const TABLES = { partKinds: partKindsTable, offers: offersTable, models: modelsTable };

export interface Change {
  readonly in: keyof typeof TABLES;
  readonly id: string;
  readonly value: object;
  /** The version it was read at; absent: new. */
  readonly version?: number;
}

export async function writeAll(
  db: Database,
  changes: readonly Change[],
  with_: readonly BatchItem<"sqlite">[],
  at: Instant,
): Promise<"written" | "moved"> {
  const [first, ...rest] = [...changes.map((change) => write(db, change, at)), ...with_];
  if (!first) return "written";
  try {
    await db.batch([first, ...rest]);
    return "written";
  } catch (error) {
    if (isRefused(error)) return "moved";
    throw error;
  }
}

function write(db: Database, { in: name, id, value, version }: Change, at: Instant): BatchItem<"sqlite"> {
  const table = TABLES[name] as typeof partKindsTable;
  const own = new Set<string>(["id", "version", "createdAt", "updatedAt"] satisfies (keyof Kept)[]);
  const columns = Object.keys(getTableColumns(table)).filter((column) => !own.has(column));
  const row = Object.fromEntries(columns.map((column) => [column, (value as Record<string, unknown>)[column] ?? null]));
  if (version === undefined) return db.insert(table).values({ ...row, id, version: 1, createdAt: at, updatedAt: at } as never);
  // Null where it was changed meanwhile, which the column refuses.
  const next = sql`CASE WHEN ${table.version} = ${version} THEN ${version + 1} END`;
  return db
    .update(table)
    .set({ ...row, version: next, updatedAt: at } as never)
    .where(eq(table.id, id));
}
