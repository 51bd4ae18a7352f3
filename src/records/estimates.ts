/**
 * A job's numbered estimates, at most one of them an open draft. The rate book is kept by id and version, which never change,
 * everything else of the input as it was; the sheet is always computed here from that input. Once issued (`issue.ts`), a row never
 * changes; a trigger refuses it too.
 */
import { eq, type SQL, sql } from "drizzle-orm";
import { foreignKey, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { estimate as compute } from "../estimating/estimate.js";
import type { EstimateInput } from "../estimating/input.js";
import type { Problem } from "../estimating/problems.js";
import type { Sheet } from "../estimating/sheet.js";
import type { Added, Page, PageWanted, Replaced, Unlinked } from "./answers.js";
import { type Kept, keptColumns } from "./columns.js";
import { contentHash } from "./contentHash.js";
import type { Database, Instant } from "./database.js";
import { jobs, jobsTable } from "./jobs.js";
import { noun } from "./noun.js";
import { rateBooks, rateBooksTable } from "./rateBooks.js";
import { recorded } from "./trail.js";

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

const rows = noun<Omit<Estimate, keyof Kept>>(estimatesTable, { jobId: jobs.find });

type Computed = EstimateValue & Pick<Estimate, "sheet" | "contentHash">;

async function computed(db: Database, value: EstimateValue): Promise<Computed | Unlinked> {
  const { jobId, rateBookId, rateBookVersion, input } = value;
  const kept = await rateBooks.findVersion(db, rateBookId, rateBookVersion);
  if (!kept) return { is: "unlinked", field: "rateBookId", id: `${rateBookId} version ${rateBookVersion}` };
  const outcome = compute({ ...input, rateBook: kept.book });
  const sheet = outcome.ok ? outcome.sheet : undefined;
  const hash = await estimateHash({ ...input, rateBook: kept.book }, sheet);
  return { jobId, rateBookId, rateBookVersion, input, ...(sheet && { sheet }), contentHash: hash };
}

/** Over the whole input, rate book included, and its sheet. */
export const estimateHash = (input: EstimateInput, sheet: Sheet | undefined): Promise<string> => contentHash({ input, sheet });

export const estimates = {
  find: (db: Database, id: string): Promise<Estimate | undefined> => rows.find(db, id),
  list: (db: Database, wanted: PageWanted, condition?: SQL): Promise<Page<Estimate>> => rows.list(db, wanted, condition),
  /** Oldest revision first. */
  ofJob: async (db: Database, jobId: string): Promise<Estimate[]> => {
    const found = await rows.where(db, eq(estimatesTable.jobId, jobId));
    return found.sort((a, b) => a.revision - b.revision);
  },

  /** The next revision of the job, as a draft; taken where the job has an open draft. A draft may have problems: it then has no sheet. */
  add: async (db: Database, id: string, value: EstimateValue, at: Instant): Promise<Added<Estimate>> => {
    const { jobId } = value;
    if (!(await jobs.find(db, jobId))) return { is: "unlinked", field: "jobId", id: jobId };
    const ready = await computed(db, value);
    if ("is" in ready) return ready;
    const written = await recorded(db, jobId, at, async () => {
      const before = await estimates.ofJob(db, jobId);
      if (before.some(({ issuedAt }) => !issuedAt) || (await rows.find(db, id))) return { answer: "taken" } as const;
      const revision = (before.at(-1)?.revision ?? 0) + 1;
      const row = { ...ready, id, version: 1, createdAt: at, updatedAt: at, revision };
      const begun = { is: "draft begun", content: { estimate: id, revision } } as const;
      return { answer: "added", writes: [db.insert(estimatesTable).values(row)], events: [begun] } as const;
    });
    return written === "added" ? { is: "added", record: (await rows.find(db, id))! } : { is: "taken" };
  },

  /** Job and revision stay. */
  replace: async (
    db: Database,
    id: string,
    expectedVersion: number,
    value: EstimateValue,
    at: Instant,
  ): Promise<Replaced<Estimate> | { readonly is: "issued"; readonly current: Estimate }> => {
    const old = await rows.find(db, id);
    if (!old) return { is: "missing" };
    if (old.issuedAt) return { is: "issued", current: old };
    const ready = await computed(db, { ...value, jobId: old.jobId });
    if ("is" in ready) return ready;
    return rows.replace(db, id, expectedVersion, { ...ready, revision: old.revision }, at);
  },

  /** The whole input again, rate book included. */
  inputOf: async (db: Database, estimate: EstimateValue): Promise<EstimateInput> => {
    const kept = await rateBooks.findVersion(db, estimate.rateBookId, estimate.rateBookVersion);
    if (!kept) throw new Error(`Rate book ${estimate.rateBookId} version ${estimate.rateBookVersion} is gone.`);
    return { ...estimate.input, rateBook: kept.book };
  },

  /** What keeps a draft from having a sheet. */
  problemsOf: async (db: Database, estimate: EstimateValue): Promise<readonly Problem[]> => {
    const outcome = compute(await estimates.inputOf(db, estimate));
    return outcome.ok ? [] : outcome.problems;
  },
};

/** Whose estimate it is; undefined where there is none. */
export async function jobOfEstimate(db: Database, id: string): Promise<string | undefined> {
  const [row] = await db.select({ jobId: estimatesTable.jobId }).from(estimatesTable).where(eq(estimatesTable.id, id));
  return row?.jobId;
}
