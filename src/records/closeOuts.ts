/**
 * Jobs that were closed: what the account and the figures were reckoned from, what they came to, and the account's PDF as it left the
 * shop. Nothing is changed afterwards: a correction is a new record that names the old, and the one that no other corrects stands.
 */

import { and, asc, desc, eq, getTableColumns, isNull, lt, sql } from "drizzle-orm";
import { type AnySQLiteColumn, alias, index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { AgreedSet } from "../estimating/agreement/choices.js";
import type { FinalAccount } from "../estimating/closeout/account/finalAccount.js";
import type { Costs, Margin } from "../estimating/closeout/account/margin.js";
import type { AccountTerms } from "../estimating/closeout/account/terms.js";
import type { ThenAgreed, Untimed } from "../estimating/closeout/jobDone.js";
import type { WorkLog } from "../estimating/closeout/log/workLog.js";
import type { CloseOut } from "../estimating/closeout/variance/closeOut.js";
import type { IsoDate } from "../estimating/input.js";
import { agreementsTable } from "./agreements.js";
import { bytes } from "./bytes.js";
import type { Database } from "./database.js";
import type { EstimateValue } from "./estimates.js";
import { type KeptOnce, onceColumns } from "./keptOnce.js";
import { withoutNulls } from "./noun.js";
import { overridesTable } from "./overrides.js";

/** An issued revision as the owner answered it; without a set, as it was issued. */
export interface Step {
  readonly estimateId: string;
  readonly revision: number;
  readonly contentHash: string;
  readonly set?: AgreedSet;
}

/** All that a close-out is reckoned from, so that it can be reckoned again whatever is written later. */
export interface CloseOutBasis {
  /** First what was quoted, last what is agreed; none of a unit that was taken back before anything was issued. */
  readonly steps: readonly Step[];
  readonly found: readonly string[];
  readonly done: Readonly<Record<string, number>>;
  readonly log: WorkLog;
  /** Absent from jobs closed before it was asked. */
  readonly untimed?: Untimed;
  /** Of those, work at a fixed price stands at it in the comparison. Absent from what was closed before 2026-11-30, where it stands at nothing. */
  readonly atPrice?: boolean;
  /** Possible work that was found has its parts so too, and services beside it what stands behind them. Absent from what was closed before 2026-11-30, where they have none. */
  readonly foundParts?: boolean;
  /** Parts nobody logged were paid for as their own line says. Absent from what was closed before 2026-11-30, where lines of one part share the price of the first. */
  readonly linePrices?: boolean;
  /** Hours on work that no time was allowed for are on neither side. Absent from what was closed before 2026-11-30, where all of them are more than allowed. */
  readonly allowedTime?: boolean;
  /** Timed work whose parts nobody logged and which were used as planned. */
  readonly unlogged?: readonly string[];
  /** Of a book from before prices were kept: what was printed is kept all the same. Absent where the book sees to it, and from what was closed before 2026-11-29. */
  readonly promised?: boolean;
  /** Worked by, where that is not what is agreed, or where nothing was issued. */
  readonly current?: Omit<EstimateValue, "jobId">;
  readonly terms: AccountTerms;
  /** The agreement that the owner took back, what was found of it, and counts ticked off while it stood. Absent where there is none, and from what was closed before 2026-11-30: then only what is logged is charged. */
  readonly thenAgreed?: Omit<ThenAgreed, "revision"> & { readonly step: Step };
  /** Absent: what the shop's hours cost was not said, so there is no margin. */
  readonly costs?: Costs;
  /** What an hour earned is left out where work is billed that nobody timed. Absent from what was closed before 2026-11-30. */
  readonly hoursKnown?: boolean;
}

export interface CloseOutResult {
  /** Absent where nothing was agreed to. */
  readonly closeOut?: CloseOut;
  readonly account: FinalAccount;
  readonly margin?: Margin;
  /** As the agreed sheet was reckoned. */
  readonly planned?: Margin;
}

export interface CloseOutRecord extends KeptOnce {
  readonly closedOn: IsoDate;
  readonly by: string;
  /** The answer it rests on: what was agreed to, or what declined it. Absent where nothing was issued that could be answered. */
  readonly agreementId?: string;
  readonly basis: CloseOutBasis;
  readonly result: CloseOutResult;
  /** SHA-256 of the canonical JSON of basis and result, and of the PDF. */
  readonly contentHash: string;
  readonly pdfHash: string;
  /** Head of the job's chain as printed on the paper. */
  readonly headNumber: number;
  readonly headHash: string;
  /** Id of the override that let the bill pass the limit. */
  readonly overrideId?: string;
  /** Id of the record this one corrects, and why. */
  readonly corrects?: string;
  readonly reason?: string;
}

export const closeOutsTable = sqliteTable(
  "close_outs",
  {
    ...onceColumns(),
    closedOn: text("closed_on").notNull(),
    by: text("closed_by").notNull(),
    agreementId: text("agreement_id").references(() => agreementsTable.id),
    basis: text("basis", { mode: "json" }).$type<CloseOutBasis>().notNull(),
    result: text("result", { mode: "json" }).$type<CloseOutResult>().notNull(),
    contentHash: text("content_hash").notNull(),
    pdfHash: text("pdf_hash").notNull(),
    headNumber: integer("head_number").notNull(),
    headHash: text("head_hash").notNull(),
    overrideId: text("override_id").references(() => overridesTable.id),
    corrects: text("corrects").references((): AnySQLiteColumn => closeOutsTable.id),
    reason: text("reason"),
    pdf: bytes("pdf").notNull(),
  },
  (table) => [
    // One close-out of a job, and one correction of each record: so one of them stands.
    uniqueIndex("close_outs_first").on(table.jobId).where(isNull(table.corrects)),
    uniqueIndex("close_outs_correction").on(table.corrects),
    index("close_outs_job").on(table.jobId),
  ],
);

const { pdf: _pdf, ...allButPdf } = getTableColumns(closeOutsTable);

export const closeOuts = {
  /** Every record of a job, oldest first by the trail: a clock may have gone back. */
  ofJob: async (db: Database, jobId: string): Promise<CloseOutRecord[]> => {
    const rows = await db
      .select(allButPdf)
      .from(closeOutsTable)
      .where(eq(closeOutsTable.jobId, jobId))
      .orderBy(asc(closeOutsTable.headNumber));
    return rows.map((row) => withoutNulls<CloseOutRecord>(row));
  },

  /** The one that stands. */
  standing: async (db: Database, jobId: string): Promise<CloseOutRecord | undefined> =>
    standingOf(await closeOuts.ofJob(db, jobId)),

  pdf: async (db: Database, id: string): Promise<Uint8Array | undefined> => {
    const [row] = await db.select({ pdf: closeOutsTable.pdf }).from(closeOutsTable).where(eq(closeOutsTable.id, id));
    return row?.pdf;
  },

  /** Those of agreed work that was done, that stand, closed last first; `before` is the id of a close-out. */
  newest: async (db: Database, limit: number, before?: string): Promise<CloseOutRecord[]> => {
    const later = alias(closeOutsTable, "later");
    const rows = await db
      .select(allButPdf)
      .from(closeOutsTable)
      .where(
        and(
          before === undefined ? undefined : lt(closeOutsTable.id, before),
          sql`${closeOutsTable.basis} ->> '$.terms.basis' not in ('declined', 'taken back', 'nothing done')`,
          sql`not exists (select 1 from ${closeOutsTable} as "later" where ${later.corrects} = ${closeOutsTable.id})`,
        ),
      )
      .orderBy(desc(closeOutsTable.id))
      .limit(limit);
    return rows.map((row) => withoutNulls<CloseOutRecord>(row));
  },
};

export function standingOf(records: readonly CloseOutRecord[]): CloseOutRecord | undefined {
  const corrected = new Set(records.map(({ corrects }) => corrects));
  return records.find(({ id }) => !corrected.has(id));
}
