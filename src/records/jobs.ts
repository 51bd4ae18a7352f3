/** A job: one visit of one unit. Numbers run without gaps within a year, because nothing is deleted. */
import { and, eq, max, type SQL } from "drizzle-orm";
import { index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { IsoDate } from "../estimating/input.js";
import { type Kept, keptColumns } from "./columns.js";
import type { Database, Instant } from "./database.js";
import { type Keys, type Made, type Noun, noun, type Page, type PageWanted, withoutNulls } from "./noun.js";
import { ownersTable } from "./owners.js";
import { unitsTable } from "./units.js";

export interface JobValue {
  readonly ownerId: string;
  readonly unitId: string;
  readonly arrivedOn: IsoDate;
  readonly reported?: string;
  /** Condition on arrival. */
  readonly condition?: string;
  readonly accessories?: readonly string[];
  readonly notes?: string;
}

export interface Job extends JobValue, Kept {
  /** Such as J-2026-0001. */
  readonly number: string;
}

export const jobsTable = sqliteTable(
  "jobs",
  {
    ...keptColumns(),
    year: integer("year").notNull(),
    sequence: integer("sequence").notNull(),
    ownerId: text("owner_id")
      .notNull()
      .references(() => ownersTable.id),
    unitId: text("unit_id")
      .notNull()
      .references(() => unitsTable.id),
    arrivedOn: text("arrived_on").notNull(),
    reported: text("reported"),
    condition: text("condition"),
    accessories: text("accessories", { mode: "json" }).$type<readonly string[]>(),
    notes: text("notes"),
  },
  (table) => [
    uniqueIndex("jobs_number").on(table.year, table.sequence),
    index("jobs_owner").on(table.ownerId),
    index("jobs_unit").on(table.unitId),
  ],
);

type Numbered = JobValue & { readonly year: number; readonly sequence: number };
const rows: Noun<Numbered> = noun<Numbered>(jobsTable);

export const jobNumber = ({ year, sequence }: { readonly year: number; readonly sequence: number }): string =>
  `J-${year}-${String(sequence).padStart(4, "0")}`;

const job = ({ year, sequence, ...value }: Numbered & Kept): Job => ({ ...value, number: jobNumber({ year, sequence }) });
export const jobFrom = (row: typeof jobsTable.$inferSelect): Job => job(withoutNulls(row));

export const jobs = {
  find: async (db: Database, id: string): Promise<Job | undefined> => {
    const found = await rows.find(db, id);
    return found && job(found);
  },

  list: async (db: Database, wanted: PageWanted, condition?: SQL): Promise<Page<Job>> => {
    const page = await rows.list(db, wanted, condition);
    return { ...page, rows: page.rows.map(job) };
  },

  ofUnit: async (db: Database, unitId: string): Promise<Job[]> => (await rows.where(db, eq(jobsTable.unitId, unitId))).map(job),
  ofOwner: async (db: Database, ownerId: string): Promise<Job[]> =>
    (await rows.where(db, eq(jobsTable.ownerId, ownerId))).map(job),

  /** Under the next number of the year it arrived in; refused by the database where another job takes it first. */
  made: async (db: Database, id: string, value: JobValue, at: Instant): Promise<Made<Job>> => {
    const year = Number(value.arrivedOn.slice(0, 4));
    const [last] = await db
      .select({ sequence: max(jobsTable.sequence) })
      .from(jobsTable)
      .where(eq(jobsTable.year, year));
    const { record, write } = rows.made(db, id, { ...value, year, sequence: (last?.sequence ?? 0) + 1 }, at);
    return { record: job(record), write };
  },

  /** The number stays. */
  changed: (db: Database, { number, ...old }: Job, keys: Keys<JobValue>, at: Instant): Made<Job> => {
    const [, year, sequence] = number.split("-").map(Number);
    const { record, write } = rows.changed(db, { ...old, year: year!, sequence: sequence! }, keys, at);
    return { record: job(record), write };
  },
};

/** 'J-2026-0001', however it is typed; 'j 2026 1' is the same. */
export function numbered(typed: string): SQL | undefined {
  const [, year, sequence] = /^\s*J[\s-]*(\d{4})[\s-]*(\d{1,9})\s*$/i.exec(typed) ?? [];
  return year && sequence ? and(eq(jobsTable.year, Number(year)), eq(jobsTable.sequence, Number(sequence))) : undefined;
}
