/** Estimates that were issued: who and when, over which content, with which PDF. Its bytes are kept as they left the shop. */
import { asc, eq, getTableColumns } from "drizzle-orm";
import { integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { bytes } from "./bytes.js";
import type { Database } from "./database.js";
import { type KeptOnce, onceColumns } from "./keptOnce.js";

export const issuesTable = sqliteTable(
  "issues",
  {
    /** The estimate's id. */
    ...onceColumns(),
    revision: integer("revision").notNull(),
    by: text("issued_by").notNull(),
    contentHash: text("content_hash").notNull(),
    pdfHash: text("pdf_hash").notNull(),
    /** Head of the job's chain as printed on the paper. */
    headNumber: integer("head_number").notNull(),
    headHash: text("head_hash").notNull(),
    pdf: bytes("pdf").notNull(),
  },
  (table) => [
    uniqueIndex("issues_revision").on(table.jobId, table.revision),
    uniqueIndex("issues_content").on(table.id, table.contentHash, table.pdfHash),
  ],
);

export interface Issue extends KeptOnce {
  readonly revision: number;
  readonly by: string;
  /** SHA-256 of the canonical JSON of the whole input and its sheet. */
  readonly contentHash: string;
  /** SHA-256 of the PDF. */
  readonly pdfHash: string;
  readonly headNumber: number;
  readonly headHash: string;
}

const { pdf: _pdf, ...allButPdf } = getTableColumns(issuesTable);

export const issues = {
  find: async (db: Database, estimateId: string): Promise<Issue | undefined> => {
    const [row] = await db.select(allButPdf).from(issuesTable).where(eq(issuesTable.id, estimateId));
    return row;
  },

  /** Oldest revision first: the last one is current, those before it are superseded. */
  ofJob: (db: Database, jobId: string): Promise<Issue[]> =>
    db.select(allButPdf).from(issuesTable).where(eq(issuesTable.jobId, jobId)).orderBy(asc(issuesTable.revision)),

  pdf: async (db: Database, estimateId: string): Promise<Uint8Array | undefined> => {
    const [row] = await db.select({ pdf: issuesTable.pdf }).from(issuesTable).where(eq(issuesTable.id, estimateId));
    return row?.pdf;
  },
};
