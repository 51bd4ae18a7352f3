/**
 * What each standard cost beyond its time, month by month, summed as jobs are closed so that a board need not read every observation.
 * Derived; by the book each job was priced by.
 */
import { and, eq, gte, lte, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import { type AnySQLiteColumn, integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { type Costly, costsOf } from "../estimating/closeout/accuracy/costliest.js";
import type { Observation } from "../estimating/closeout/learning/observation.js";
import { standardId, standardNamed } from "../estimating/closeout/learning/standard.js";
import type { CurrencyCode, RateBook } from "../estimating/input.js";
import { fromMilli, toMilli } from "../estimating/money/scales.js";
import type { Database } from "./database.js";

export const standardCostsTable = sqliteTable(
  "standard_costs",
  {
    currency: text("currency").notNull(),
    standard: text("standard").notNull(),
    month: text("month").notNull(),
    observations: integer("observations").notNull(),
    jobs: integer("jobs").notNull(),
    /** Thousandths of a minute. */
    allowed: integer("allowed").notNull(),
    taken: integer("taken").notNull(),
    cost: integer("cost").notNull(),
  },
  (table) => [primaryKey({ columns: [table.currency, table.standard, table.month] })],
);

/** To go in one batch: what one job's observations add, or take away again before it is corrected. */
export function adding(
  db: Database,
  rateBook: RateBook,
  month: string,
  seen: readonly Observation[],
  sign: 1 | -1 = 1,
): BatchItem<"sqlite">[] {
  const rows = costsOf(seen, rateBook).map(({ standard, observations, jobs, allowed, taken, cost }) => ({
    ...{ currency: rateBook.currency, month, standard: standardId(standard) },
    ...{ observations: sign * observations, jobs: sign * jobs },
    ...{ allowed: sign * toMilli(allowed), taken: sign * toMilli(taken), cost: sign * cost },
  }));
  if (rows.length === 0) return [];
  const grown = (name: string) => sql.raw(`"${name}" + excluded."${name}"`);
  const { currency: c, standard, month: m } = standardCostsTable;
  return [
    db
      .insert(standardCostsTable)
      .values(rows)
      .onConflictDoUpdate({
        target: [c, standard, m],
        set: {
          observations: grown("observations"),
          jobs: grown("jobs"),
          allowed: grown("allowed"),
          taken: grown("taken"),
          cost: grown("cost"),
        },
      }),
  ];
}

/** Months as YYYY-MM, both included. `dearest` ranks them. */
export async function standardCosts(
  db: Database,
  book: RateBook,
  currency: CurrencyCode,
  { from, to }: { readonly from?: string | undefined; readonly to?: string | undefined } = {},
): Promise<Costly[]> {
  const { standard, month, ...sums } = standardCostsTable;
  const sum = (column: AnySQLiteColumn) => sql<number>`sum(${column})`;
  const rows = await db
    .select({
      standard,
      observations: sum(sums.observations),
      jobs: sum(sums.jobs),
      allowed: sum(sums.allowed),
      taken: sum(sums.taken),
      cost: sum(sums.cost),
    })
    .from(standardCostsTable)
    .where(
      and(
        eq(sums.currency, currency),
        from === undefined ? undefined : gte(month, from),
        to === undefined ? undefined : lte(month, to),
      ),
    )
    .groupBy(standard);
  return rows.map(({ standard: id, allowed, taken, ...row }) => ({
    ...row,
    standard: standardNamed(id, book),
    allowed: fromMilli(allowed),
    taken: fromMilli(taken),
  }));
}
