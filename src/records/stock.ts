/**
 * Pieces on the shelf: an append-only list of movements, each with the count it leaves. Triggers hold that a count follows the one
 * before it, is never below nought, and stands in the catalogue (`part_kinds.stock`), where estimates read it; a count set there is a
 * movement too. Parts used that the count did not have never hold up the bench: the count stays at nought and `beyond` tells of them.
 */
import { and, asc, desc, eq, gt, inArray, isNull, max, type SQL, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import { type AnySQLiteColumn, index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { Database, Instant } from "./database.js";
import { goodsInTable } from "./goodsIn.js";
import { jobsTable } from "./jobs.js";
import { withoutNulls } from "./noun.js";
import { keptAs, partKindsTable } from "./partKinds.js";
import type { Write } from "./trail.js";

export const MOVEMENTS = ["goods in", "used on job", "put back", "counted"] as const;

export const stockMovementsTable = sqliteTable(
  "stock_movements",
  {
    /** In the order they were written. */
    number: integer("number").primaryKey({ autoIncrement: true }),
    id: text("id").notNull(),
    kind: text("kind")
      .notNull()
      .references(() => partKindsTable.id),
    why: text("why").$type<(typeof MOVEMENTS)[number]>().notNull(),
    change: integer("change").notNull(),
    beyond: integer("beyond").notNull(),
    standsAt: integer("stands_at").notNull(),
    reason: text("reason"),
    jobId: text("job_id").references(() => jobsTable.id),
    goodsInId: text("goods_in_id").references((): AnySQLiteColumn => goodsInTable.id),
    at: text("at").notNull(),
    by: text("by").notNull(),
  },
  (table) => [
    uniqueIndex("stock_movements_id").on(table.id),
    index("stock_movements_kind").on(table.kind, table.number),
    index("stock_movements_job").on(table.jobId).where(sql`job_id is not null`),
  ],
);

export interface Movement {
  readonly number: number;
  readonly id: string;
  readonly kind: string;
  readonly why: (typeof MOVEMENTS)[number];
  /** Pieces put on the shelf; below nought: taken off it. */
  readonly change: number;
  /** Pieces used that the count did not have; below nought: such pieces were not used after all. */
  readonly beyond: number;
  /** Pieces on the shelf after it. */
  readonly standsAt: number;
  readonly reason?: string;
  readonly jobId?: string;
  readonly goodsInId?: string;
  readonly at: Instant;
  readonly by: string;
}

interface Moving {
  /** Of the movement, chosen by the caller. */
  readonly id: string;
  /** Id of a part kind. */
  readonly kind: string;
  readonly by: string;
  readonly at: Instant;
}

const standing = (kind: string | SQL<string>): SQL<number> =>
  sql`coalesce((select stands_at from stock_movements where kind = ${kind} order by number desc limit 1), 0)`;

/** For the batch that logs parts used on a job. Below nought: so many are put back. */
export function takeFromStock(
  db: Database,
  { id, kind, pieces, jobId, by, at }: Moving & { readonly pieces: number; readonly jobId: string },
): BatchItem<"sqlite"> {
  const had = standing(kind);
  return db.insert(stockMovementsTable).values({
    ...{ id, kind, why: "used on job" as const, jobId, by, at },
    change: sql`-min(${pieces}, ${had})`,
    beyond: sql`max(0, ${pieces} - ${had})`,
    standsAt: sql`${had} - min(${pieces}, ${had})`,
  });
}

/** For the batch that withdraws an entry: what its part took goes back, and what the count did not have is forgotten. */
export function putBack(
  db: Database,
  { kind, change, beyond }: Movement,
  { id, jobId, by, at }: Omit<Moving, "kind"> & { readonly jobId: string },
): BatchItem<"sqlite"> {
  return db.insert(stockMovementsTable).values({
    ...{ id, kind: keptAs(kind), why: "put back" as const, jobId, by, at },
    ...{ change: 0 - change, beyond: 0 - beyond },
    standsAt: sql`${standing(keptAs(kind))} - ${change}`,
  });
}

/** For the batch that books goods in. */
export function putInStock(
  db: Database,
  { id, kind, pieces, goodsInId, by, at }: Moving & { readonly pieces: number; readonly goodsInId: string },
): BatchItem<"sqlite"> {
  return db.insert(stockMovementsTable).values({
    ...{ id, kind, why: "goods in" as const, change: pieces, beyond: 0, goodsInId, by, at },
    standsAt: sql`${standing(kind)} + ${pieces}`,
  });
}

/** Refused by the database where another movement came between. */
export const countedRow = (db: Database, move: Movement): Write => db.insert(stockMovementsTable).values(move);

/** Pieces each kind stands at by its last movement, and the number of the last movement of all. */
export async function lastMovements(db: Database, kinds: readonly string[]) {
  const { kind, number, standsAt } = stockMovementsTable;
  const newest = db
    .select({ last: max(number) })
    .from(stockMovementsTable)
    .where(inArray(kind, [...kinds]))
    .groupBy(kind);
  const [rows, [all]] = await Promise.all([
    db.select({ kind, standsAt }).from(stockMovementsTable).where(inArray(number, newest)),
    db.select({ number: max(number) }).from(stockMovementsTable),
  ]);
  return { standing: new Map(rows.map((row) => [row.kind, row.standsAt])), number: all?.number ?? 0 };
}

/** Pieces on the shelf; a kind that was never counted has none, one that was merged those of the other. */
export const stockRows = (db: Database, which: SQL) =>
  db
    .select({
      id: partKindsTable.id,
      stock: sql<
        number | null
      >`coalesce((select p.stock from part_kinds p where p.id = part_kinds.withdrawal ->> '$.into'), part_kinds.stock)`,
    })
    .from(partKindsTable)
    .where(which);

export const stockIn = (rows: Awaited<ReturnType<typeof stockRows>>): ReadonlyMap<string, number> =>
  new Map(rows.map(({ id, stock }) => [id, stock ?? 0]));

export const stockOf = async (db: Database, kinds: readonly string[]): Promise<ReadonlyMap<string, number>> =>
  kinds.length === 0 ? new Map() : stockIn(await stockRows(db, inArray(partKindsTable.id, [...kinds])));

/** Newest first. */
export async function movementsOf(db: Database, kind: string, limit = 50): Promise<Movement[]> {
  const rows = await db
    .select()
    .from(stockMovementsTable)
    .where(eq(stockMovementsTable.kind, kind))
    .orderBy(desc(stockMovementsTable.number))
    .limit(limit);
  return rows.map((row) => withoutNulls<Movement>(row));
}

export interface Shelved {
  readonly id: string;
  readonly type: string;
  readonly name: string;
  readonly value: string | null;
  readonly stock: number | null;
}

/** A page of the catalogue by name of kind; `after` is the last id of the page before. */
export const shelf = (db: Database, limit: number, after?: string): Promise<Shelved[]> => {
  const { id, type, name, value, stock } = partKindsTable;
  return db
    .select({ id, type, name, value, stock })
    .from(partKindsTable)
    .where(and(isNull(partKindsTable.withdrawal), after === undefined ? undefined : gt(id, after)))
    .orderBy(asc(id))
    .limit(limit);
};

/** Who moved stock last; the catalogue is nobody. */
export async function lastHandAtShelf(db: Database): Promise<string> {
  const { by, number } = stockMovementsTable;
  const newest = db.select({ number: max(number) }).from(stockMovementsTable);
  const [last] = await db.select({ by }).from(stockMovementsTable).where(eq(number, newest));
  return last && last.by !== "catalogue" ? last.by : "";
}
