/** The owner's recorded answers, each to one issued revision. Nothing is changed afterwards: a correction is a new record that names the old. */

import { isNull } from "drizzle-orm";
import { type AnySQLiteColumn, index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { AgreedSet } from "../estimating/agreement/choices.js";
import type { CurrencyCode, Minor } from "../estimating/input.js";
import type { SpokenAgreement } from "../estimating/law/spoken.js";
import type { Database } from "./database.js";
import { estimatesTable } from "./estimates.js";
import { asWritten, type KeptOnce, type OfJobs, ofJobs, onceColumns } from "./keptOnce.js";
import { withoutNulls } from "./noun.js";
import { ownerLinksTable } from "./ownerLinks.js";
import type { Write } from "./trail.js";

export const ANSWERS_GIVEN = ["agreed", "part agreed", "declined"] as const;
export type AnswerGiven = (typeof ANSWERS_GIVEN)[number];
export const CHANNELS = ["page", "in person", "telephone", "e-mail"] as const;
export type Channel = (typeof CHANNELS)[number];

export interface Agreement extends KeptOnce, AgreedSet {
  readonly estimateId: string;
  readonly revision: number;
  /** Of the revision answered, and of the very PDF issued. */
  readonly contentHash: string;
  readonly pdfHash: string;
  readonly answer: AnswerGiven;
  /** Who answered. */
  readonly by: string;
  readonly channel: Channel;
  /** The exact text that was agreed to or declined. */
  readonly wording: string;
  /** The shop's time zone, an IANA name; `at` is in UTC. */
  readonly zone: string;
  readonly currency: CurrencyCode;
  /** Of the agreed set, tax included; absent when declined. */
  readonly amount?: Minor;
  /** Declined: the most that looking and work done as agreed may come to, where the wording says so; absent in earlier ones. */
  readonly ceiling?: Minor;
  /** Promised for that very set; absent when declined, and from answers before 2026-11-28. */
  readonly deposit?: Minor;
  /** The link it came through, and where that was delivered. */
  readonly linkId?: string;
  readonly deliveredTo?: string;
  /** Network address and program of an answer on the page. */
  readonly address?: string;
  readonly agent?: string;
  /** Who put it on record, when it was not the owner on the page. */
  readonly recordedBy?: string;
  readonly spoken?: SpokenAgreement;
  /** Which writing it rests on, such as the paper signed at the counter. */
  readonly writing?: string;
  /** Id of the record this one corrects, and why. */
  readonly corrects?: string;
  readonly reason?: string;
}

export const agreementsTable = sqliteTable(
  "agreements",
  {
    ...onceColumns(),
    estimateId: text("estimate_id")
      .notNull()
      .references(() => estimatesTable.id),
    revision: integer("revision").notNull(),
    contentHash: text("content_hash").notNull(),
    pdfHash: text("pdf_hash").notNull(),
    answer: text("answer").$type<AnswerGiven>().notNull(),
    by: text("answered_by").notNull(),
    channel: text("channel").$type<Channel>().notNull(),
    wording: text("wording").notNull(),
    zone: text("zone").notNull(),
    currency: text("currency").notNull(),
    chosen: text("chosen", { mode: "json" }).$type<readonly string[]>().notNull(),
    struck: text("struck", { mode: "json" }).$type<readonly string[]>().notNull(),
    amount: integer("amount"),
    ceiling: integer("ceiling"),
    deposit: integer("deposit"),
    linkId: text("link_id").references(() => ownerLinksTable.id),
    deliveredTo: text("delivered_to"),
    address: text("address"),
    agent: text("agent"),
    recordedBy: text("recorded_by"),
    spoken: text("spoken", { mode: "json" }).$type<SpokenAgreement>(),
    writing: text("writing"),
    corrects: text("corrects").references((): AnySQLiteColumn => agreementsTable.id),
    reason: text("reason"),
  },
  (table) => [
    // One answer to a revision, and one correction of each record: so one of them stands.
    uniqueIndex("agreements_answer").on(table.estimateId).where(isNull(table.corrects)),
    uniqueIndex("agreements_correction").on(table.corrects),
    index("agreements_job").on(table.jobId),
  ],
);

/** Every record of a job, oldest first. */
export async function answersOf(db: Database, jobs: OfJobs): Promise<Agreement[]> {
  const rows = await db.select().from(agreementsTable).where(ofJobs(agreementsTable, jobs)).orderBy(asWritten(agreementsTable));
  return rows.map((row) => withoutNulls<Agreement>(row));
}

/** The answer to a revision that no other record corrects. */
export function standingAnswer(answers: readonly Agreement[], estimateId: string): Agreement | undefined {
  const corrected = new Set(answers.map(({ corrects }) => corrects));
  return answers.find((answer) => answer.estimateId === estimateId && !corrected.has(answer.id));
}

/** The newest revision whose standing answer lets the shop work, with that answer. Declining a later one leaves it standing. */
export function agreedTo(answers: readonly Agreement[], beforeRevision = Number.POSITIVE_INFINITY): Agreement | undefined {
  return [...new Set(answers.map(({ estimateId }) => estimateId))]
    .flatMap((id) => standingAnswer(answers, id) ?? [])
    .filter(({ answer, revision }) => answer !== "declined" && revision < beforeRevision)
    .sort((a, b) => b.revision - a.revision)[0];
}

export const addAgreement = (db: Database, record: Agreement): Write => db.insert(agreementsTable).values(record);
