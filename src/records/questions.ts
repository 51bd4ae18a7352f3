/** What an owner asks on the page, and what the shop replies. */
import { asc, eq, inArray } from "drizzle-orm";
import { index, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database, Instant } from "./database.js";
import { estimatesTable } from "./estimates.js";
import { type KeptOnce, onceColumns, tellingOf } from "./keptOnce.js";
import { type OwnerLink, ownerLinksTable } from "./ownerLinks.js";
import { type Decided, recorded } from "./trail.js";

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

/** Beyond this the shop has to reply first. */
export const OPEN_QUESTIONS = 10;

async function ofJob(db: Database, jobId: string): Promise<Question[]> {
  const asked = await db
    .select()
    .from(questionsTable)
    .where(eq(questionsTable.jobId, jobId))
    .orderBy(asc(questionsTable.at), asc(questionsTable.id));
  if (asked.length === 0) return [];
  const ids = asked.map(({ id }) => id);
  const replies = await db
    .select()
    .from(questionRepliesTable)
    .where(inArray(questionRepliesTable.questionId, ids))
    .orderBy(asc(questionRepliesTable.at), asc(questionRepliesTable.id));
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

  /** The same question again, unanswered, is the same question. */
  ask: (
    db: Database,
    id: string,
    { estimateId, link, text: asked }: { readonly estimateId: string; readonly link: OwnerLink; readonly text: string },
    at: Instant,
  ): Promise<"asked" | "too many"> =>
    recorded(db, link.jobId, at, async (): Promise<Decided<"asked" | "too many">> => {
      const open = (await ofJob(db, link.jobId)).filter(({ replies }) => replies.length === 0);
      if (open.some((question) => question.text === asked)) return { answer: "asked" };
      if (open.length >= OPEN_QUESTIONS) return { answer: "too many" };
      const row = { id, jobId: link.jobId, at, estimateId, linkId: link.id, text: asked };
      return {
        answer: "asked",
        writes: [db.insert(questionsTable).values(row)],
        events: [{ is: "question asked", content: { record: await tellingOf("questions", row) } }],
      };
    }),

  /** Undefined where there is no such question. */
  reply: async (
    db: Database,
    questionId: string,
    id: string,
    { by, text: said }: { readonly by: string; readonly text: string },
    at: Instant,
  ): Promise<Question | undefined> => {
    const question = await find(db, questionId);
    if (!question) return undefined;
    const { jobId } = question;
    const row = { id, jobId, at, questionId, by, text: said };
    await recorded(db, jobId, at, async () => ({
      answer: undefined,
      writes: [db.insert(questionRepliesTable).values(row)],
      events: [{ is: "question answered" as const, content: { by, record: await tellingOf("question_replies", row) } }],
    }));
    return find(db, questionId);
  },
};
