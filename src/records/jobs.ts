/** A job: one visit of one unit. Numbers run without gaps within a year, because nothing is deleted. */
import { and, eq, max, type SQL, sql } from "drizzle-orm";
import { index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { IsoDate } from "../estimating/input.js";
import type { Added, Page, PageWanted } from "./answers.js";
import { type Kept, keptColumns } from "./columns.js";
import type { Database, Instant } from "./database.js";
import { type Keys, type Made, type Noun, noun, withoutNulls } from "./noun.js";
import { owners, ownersTable } from "./owners.js";
import { units, unitsTable } from "./units.js";

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
const rows: Noun<Numbered> = noun<Numbered>(jobsTable, { ownerId: owners.find, unitId: units.find });

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

  /** The next number of the year it arrived in is taken by the same statement that writes the job. */
  add: async (db: Database, id: string, value: JobValue, at: Instant): Promise<Added<Job>> => {
    const year = Number(value.arrivedOn.slice(0, 4));
    const next = sql<number>`(select coalesce(max(sequence), 0) + 1 from ${jobsTable} where year = ${year})`;
    const added = await rows.add(db, id, { ...value, year, sequence: next as unknown as number }, at);
    return added.is === "added" ? { is: "added", record: job(added.record) } : added;
  },

  /** The number stays. */
  replace: async (db: Database, id: string, expectedVersion: number, value: JobValue, at: Instant) => {
    const old = await rows.find(db, id);
    if (!old) return { is: "missing" } as const;
    const answer = await rows.replace(db, id, expectedVersion, { ...value, year: old.year, sequence: old.sequence }, at);
    if (answer.is === "replaced") return { is: "replaced", record: job(answer.record) } as const;
    return answer.is === "moved" ? ({ is: "moved", current: job(answer.current) } as const) : answer;
  },
};

/** 'J-2026-0001', however it is typed; 'j 2026 1' is the same. */
export async function jobNumbered(db: Database, typed: string): Promise<Job | undefined> {
  const [, year, sequence] = /^\s*J[\s-]*(\d{4})[\s-]*(\d{1,9})\s*$/i.exec(typed) ?? [];
  if (!year || !sequence) return undefined;
  const [found] = await rows.where(db, and(eq(jobsTable.year, Number(year)), eq(jobsTable.sequence, Number(sequence))), 1);
  return found && job(found);
}
