/**
 * A job's numbered estimates, at most one of them an open draft. The rate book is kept by id and version, which never change,
 * everything else of the input as it was, but for the facts of the unit and the visit: they have their home in `units` and `jobs`, and
 * whoever reads a draft reads them from there. So a draft's version is its row's with those of the two records on top, and rises with
 * either. Once issued, a row holds its facts as they were and never changes; a trigger refuses it too.
 */
import { and, asc, desc, eq, gt, isNull, type SQL, sql } from "drizzle-orm";
import { foreignKey, integer, type SQLiteColumn, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { same } from "../estimating/agreement/canonical.js";
import { estimate as compute } from "../estimating/estimate.js";
import type { EstimateInput, RateBook, Unit } from "../estimating/input.js";
import type { Problem } from "../estimating/problems.js";
import type { Sheet } from "../estimating/sheet.js";
import { type Kept, keptColumns } from "./columns.js";
import { contentHash } from "./contentHash.js";
import type { Database, Instant } from "./database.js";
import { type JobValue, jobNumber, jobsTable } from "./jobs.js";
import { type OfJobs, ofJobs } from "./keptOnce.js";
import type { Page, PageWanted } from "./noun.js";
import { type Made, page, withoutNulls } from "./noun.js";
import { rateBooks, rateBooksTable } from "./rateBooks.js";
import { type UnitRecord, unitsTable } from "./units.js";

/** An input whose rate book stands beside it, by id and version. */
export type BareInput = Omit<EstimateInput, "rateBook">;

export interface EstimateValue {
  readonly jobId: string;
  readonly rateBookId: string;
  readonly rateBookVersion: number;
  readonly input: BareInput;
}

export interface Estimate extends EstimateValue, Kept {
  /** 1, 2, 3 ... within the job. */
  readonly revision: number;
  /** Absent while the input has problems. */
  readonly sheet?: Sheet;
  /** SHA-256 over the whole input and its sheet. */
  readonly contentHash: string;
  /** When and by whom it was issued; absent: a draft. */
  readonly issuedAt?: Instant;
  readonly issuedBy?: string;
}

export const estimatesTable = sqliteTable(
  "estimates",
  {
    ...keptColumns(),
    jobId: text("job_id")
      .notNull()
      .references(() => jobsTable.id),
    revision: integer("revision").notNull(),
    rateBookId: text("rate_book_id").notNull(),
    rateBookVersion: integer("rate_book_version").notNull(),
    input: text("input", { mode: "json" }).$type<BareInput>().notNull(),
    sheet: text("sheet", { mode: "json" }).$type<Sheet>(),
    contentHash: text("content_hash").notNull(),
    issuedAt: text("issued_at"),
    issuedBy: text("issued_by"),
  },
  (table) => [
    uniqueIndex("estimates_revision").on(table.jobId, table.revision),
    uniqueIndex("estimates_open_draft").on(table.jobId).where(sql`issued_at is null`),
    foreignKey({
      columns: [table.rateBookId, table.rateBookVersion],
      foreignColumns: [rateBooksTable.id, rateBooksTable.version],
    }),
  ],
);

/** Keys of an input's unit by the record they have their home in. */
export const UNIT_FACTS = [
  "maker",
  "model",
  "serial",
  "declaredValue",
  "hazards",
] as const satisfies readonly (keyof UnitRecord)[];
export const VISIT_FACTS = ["reported", "condition", "accessories"] as const satisfies readonly (keyof JobValue)[];
export type Facts = Pick<UnitRecord, (typeof UNIT_FACTS)[number]> & Pick<JobValue, (typeof VISIT_FACTS)[number]>;

const pick = (from: object, keys: readonly string[]) =>
  Object.fromEntries(Object.entries(from).filter(([key, value]) => keys.includes(key) && value !== undefined && value !== null));

export const factsOf = (unit: Partial<UnitRecord>, job: Partial<JobValue>): Facts =>
  ({ ...pick(unit, UNIT_FACTS), ...pick(job, VISIT_FACTS) }) as unknown as Facts;

export function withFacts<Input extends BareInput>(input: Input, facts: Facts): Input {
  const own = Object.entries(input.unit).filter(([key]) => ![...UNIT_FACTS, ...VISIT_FACTS].some((fact) => fact === key));
  return { ...input, unit: { ...(Object.fromEntries(own) as unknown as Unit), ...facts } };
}

/** What an input comes to: its sheet where it has no problems, and the hash over both. */
export async function priced(
  input: EstimateInput,
): Promise<Pick<Estimate, "sheet" | "contentHash"> & { readonly problems: readonly Problem[] }> {
  const outcome = compute(input);
  const sheet = outcome.ok ? outcome.sheet : undefined;
  const problems = outcome.ok ? [] : outcome.problems;
  return { ...(sheet && { sheet }), contentHash: await estimateHash(input, sheet), problems };
}

/** Over the whole input, rate book included, and its sheet. */
export const estimateHash = (input: EstimateInput, sheet: Sheet | undefined): Promise<string> => contentHash({ input, sheet });

/** A row with those its facts stand in. */
interface Found {
  readonly estimate: typeof estimatesTable.$inferSelect;
  readonly unit: typeof unitsTable.$inferSelect;
  readonly job: typeof jobsTable.$inferSelect;
}

export const estimateRows = (db: Database) =>
  db
    .select({ estimate: estimatesTable, unit: unitsTable, job: jobsTable })
    .from(estimatesTable)
    .innerJoin(jobsTable, eq(jobsTable.id, estimatesTable.jobId))
    .innerJoin(unitsTable, eq(unitsTable.id, jobsTable.unitId));

/** A draft as the records stand now: where its unit or visit was described anew since it was kept, it is reckoned anew. */
export async function asItStands({ estimate, unit, job }: Found, bookOf: () => Promise<RateBook>): Promise<Estimate> {
  const kept = withoutNulls<Estimate>(estimate);
  if (kept.issuedAt) return kept;
  const input = withFacts(kept.input, factsOf(withoutNulls(unit), withoutNulls(job)));
  const version = kept.version + onTop(unit, job);
  if (same(input.unit, kept.input.unit)) return { ...kept, version };
  const { sheet: _, ...row } = kept;
  const { problems: __, ...anew } = await priced({ ...input, rateBook: await bookOf() });
  return { ...row, input, ...anew, version };
}

/** What the records of unit and job add to the version of a draft's row. */
export const onTop = (unit: { readonly version: number }, job: { readonly version: number }): number =>
  unit.version + job.version - 2;

const standing = (db: Database, rows: readonly Found[]): Promise<Estimate[]> =>
  Promise.all(rows.map((row) => asItStands(row, () => bookOf(db, row.estimate))));

async function bookOf(db: Database, { rateBookId, rateBookVersion }: Pick<EstimateValue, "rateBookId" | "rateBookVersion">) {
  const kept = await rateBooks.findVersion(db, rateBookId, rateBookVersion);
  if (!kept) throw new Error(`Rate book ${rateBookId} version ${rateBookVersion} is gone.`);
  return kept.book;
}

const isCurrent = sql`${estimatesTable.issuedAt} is not null and not exists (select 1 from estimates later
  where later.job_id = ${estimatesTable.jobId} and later.issued_at is not null and later.revision > ${estimatesTable.revision})`;

async function newest(db: Database, which: SQL, by: SQLiteColumn, limit: number) {
  const rows = await estimateRows(db).where(which).orderBy(desc(by), desc(estimatesTable.id)).limit(limit);
  const found = await standing(db, rows);
  return found.map((estimate, at) => ({ estimate, number: jobNumber(rows[at]!.job) }));
}

export const estimates = {
  find: async (db: Database, id: string): Promise<Estimate | undefined> =>
    (await standing(db, await estimateRows(db).where(eq(estimatesTable.id, id))))[0],

  list: async (db: Database, { limit, after }: PageWanted, condition?: SQL): Promise<Page<Estimate>> => {
    const beyond = after === undefined ? undefined : gt(estimatesTable.id, after);
    const found = estimateRows(db).where(and(beyond, condition)).orderBy(asc(estimatesTable.id));
    return page(await standing(db, await found.limit(limit + 1)), limit);
  },

  /** Oldest revision first. */
  ofJob: async (db: Database, jobs: OfJobs): Promise<Estimate[]> =>
    standing(db, await estimateRows(db).where(ofJobs(estimatesTable, jobs)).orderBy(asc(estimatesTable.revision))),

  /** Those of the whole shop, changed last first, with the number of the job. */
  openDrafts: (db: Database, limit: number) => newest(db, isNull(estimatesTable.issuedAt), estimatesTable.updatedAt, limit),
  /** The current revision of each of the jobs issued last. */
  issuedLast: (db: Database, limit: number) => newest(db, isCurrent, estimatesTable.issuedAt, limit),

  /** The rows as they were written, a draft with the facts it was last reckoned with. */
  asWritten: async (db: Database, jobId: string): Promise<Estimate[]> => {
    const rows = await db
      .select()
      .from(estimatesTable)
      .where(eq(estimatesTable.jobId, jobId))
      .orderBy(asc(estimatesTable.revision));
    return rows.map((row) => withoutNulls<Estimate>(row));
  },

  /** The whole input again, rate book included. */
  inputOf: async (db: Database, estimate: EstimateValue): Promise<EstimateInput> => ({
    ...estimate.input,
    rateBook: await bookOf(db, estimate),
  }),

  /** What keeps a draft from having a sheet. */
  problemsOf: async (db: Database, estimate: EstimateValue): Promise<readonly Problem[]> => {
    const outcome = compute(await estimates.inputOf(db, estimate));
    return outcome.ok ? [] : outcome.problems;
  },

  /** Version 1, whatever `top` the records of unit and job will add to it. */
  made: (db: Database, draft: Omit<Estimate, Exclude<keyof Kept, "id">>, top: number, at: Instant): Made<Estimate> => {
    const row = { ...draft, version: 1 - top, createdAt: at, updatedAt: at };
    return { record: { ...row, version: 1 }, write: db.insert(estimatesTable).values(row) };
  },

  /**
   * These keys of the row alone. Refused by the database where draft, unit and job are no longer as seen, or it was issued. `rises`: by how
   * much the row's version does; by none where only facts were, whose own records rise.
   */
  changed: (db: Database, seen: Estimate, keys: DraftKeys, at: Instant, rises: 0 | 1 = 1): Made<Estimate> => {
    const next = seen.version + rises;
    const after = keys.issuedAt === undefined ? sql`version + ${rises}` : sql`${next}`;
    const set = {
      ...keys,
      ...(keys.contentHash !== undefined && { sheet: keys.sheet ?? null }),
      // Null where it was changed meanwhile, which the column refuses.
      version: sql`CASE WHEN version + ${onTopNow(seen)} = ${seen.version} THEN ${after} END` as never,
      updatedAt: at,
    };
    const write = db.update(estimatesTable).set(set).where(eq(estimatesTable.id, seen.id));
    return { record: withoutNulls({ ...seen, ...set, version: next }), write };
  },
};

type DraftKeys = Partial<Omit<Estimate, "jobId" | "revision" | keyof Kept>>;

const onTopNow = ({ jobId }: Estimate): SQL =>
  sql`(SELECT j.version + u.version - 2 FROM jobs j JOIN units u ON u.id = j.unit_id WHERE j.id = ${jobId})`;
