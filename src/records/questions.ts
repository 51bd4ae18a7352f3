/** What an owner asks on the page, and what the shop replies. */
import { eq, inArray } from "drizzle-orm";
import { index, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database } from "./database.js";
import { estimatesTable } from "./estimates.js";
import { asWritten, type KeptOnce, onceColumns } from "./keptOnce.js";
import { ownerLinksTable } from "./ownerLinks.js";
import type { Write } from "./trail.js";

export const questionsTable = sqliteTable(
  "questions",
  {
    ...onceColumns(),
    estimateId: text("estimate_id")
      .notNull()
      .references(() => estimatesTable.id),
    linkId: text("link_id")
      .notNull()
      .references(() => ownerLinksTable.id),
    text: text("text").notNull(),
  },
  (table) => [index("questions_job").on(table.jobId)],
);

export const questionRepliesTable = sqliteTable(
  "question_replies",
  {
    ...onceColumns(),
    questionId: text("question_id")
      .notNull()
      .references(() => questionsTable.id),
    by: text("replied_by").notNull(),
    text: text("text").notNull(),
  },
  (table) => [index("question_replies_question").on(table.questionId)],
);

export interface Reply extends KeptOnce {
  readonly questionId: string;
  readonly by: string;
  readonly text: string;
}

export interface Question extends KeptOnce {
  readonly estimateId: string;
  readonly linkId: string;
  readonly text: string;
  readonly replies: readonly Reply[];
}

async function ofJob(db: Database, jobId: string): Promise<Question[]> {
  const asked = await db.select().from(questionsTable).where(eq(questionsTable.jobId, jobId)).orderBy(asWritten(questionsTable));
  if (asked.length === 0) return [];
  const ids = asked.map(({ id }) => id);
  const replies = await db
    .select()
    .from(questionRepliesTable)
    .where(inArray(questionRepliesTable.questionId, ids))
    .orderBy(asWritten(questionRepliesTable));
  return asked.map((question) => ({ ...question, replies: replies.filter(({ questionId }) => questionId === question.id) }));
}

async function find(db: Database, id: string): Promise<Question | undefined> {
  const [row] = await db.select().from(questionsTable).where(eq(questionsTable.id, id));
  return row && (await ofJob(db, row.jobId)).find((question) => question.id === id);
}

export const questions = {
  find,
  /** Oldest first. */
  ofJob,
};

export async function jobOfQuestion(db: Database, id: string): Promise<string | undefined> {
  const [row] = await db.select({ jobId: questionsTable.jobId }).from(questionsTable).where(eq(questionsTable.id, id));
  return row?.jobId;
}

export const addQuestion = (db: Database, row: Omit<Question, "replies">): Write => db.insert(questionsTable).values(row);
export const addReply = (db: Database, row: Reply): Write => db.insert(questionRepliesTable).values(row);
