/** A question of the owner, asked on the page that a link opens. The same question again, unanswered, is the same question. */
import { z } from "zod";
import { tellingOf } from "../records/keptOnce.js";
import { addQuestion, type Question } from "../records/questions.js";
import { act, type Decided, refused } from "./act.js";
import type { Visiting } from "./answerByLink.js";
import { note } from "./field.js";
import { keptQuestion } from "./shapes/agreements.js";

/** Beyond this the shop has to reply first. */
const OPEN_QUESTIONS = 10;

export const askQuestion = act({
  name: "askQuestion",
  title: "Send the question",
  fields: z.strictObject({ text: note("Your question", { most: 2000 }) }),
  answer: keptQuestion,
  decide: async (desk, { text }, { link, estimate }: Visiting): Promise<Decided<Question>> => {
    const job = await desk.job(link.jobId);
    if (!job) return refused("not found", { detail: "This link opens no such revision." });
    const open = job.questions.filter(({ replies }) => replies.length === 0);
    const same = open.find((question) => question.text === text);
    if (same) return { answer: same };
    if (open.length >= OPEN_QUESTIONS) return refused("too many questions");
    const row = { id: desk.newId(), jobId: job.id, at: desk.at, estimateId: estimate, linkId: link.id, text };
    return {
      answer: { ...row, replies: [] },
      writes: [addQuestion(desk.db, row)],
      trail: {
        job: job.id,
        head: job.head,
        events: [{ is: "question asked", content: { record: await tellingOf("questions", row) } }],
      },
    };
  },
});
