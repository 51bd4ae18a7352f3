/** The shop's reply to an owner's question; the owner reads it on the page. */
import { z } from "zod";
import { tellingOf } from "../records/keptOnce.js";
import { addReply, jobOfQuestion, type Question } from "../records/questions.js";
import { act, type Decided, refused } from "./act.js";
import { hand, note } from "./field.js";
import { handOf } from "./hand.js";
import { keptQuestion } from "./shapes/agreements.js";

const YOUR_NAME = "Your name";

export const replyToQuestion = act({
  name: "replyToQuestion",
  title: "Send the reply",
  fields: z
    .strictObject({ text: note("Reply"), by: hand(YOUR_NAME, { hint: "The owner reads who replied." }) })
    .meta({ id: "Reply" }),
  answer: keptQuestion,
  /** `job`: that of the page it was sent from, where there is one. */
  decide: async (
    desk,
    { text, by },
    { question: id, job: from }: { readonly question: string; readonly job?: string },
  ): Promise<Decided<Question>> => {
    const jobId = await jobOfQuestion(desk.db, id);
    const job = jobId === undefined || (from !== undefined && from !== jobId) ? undefined : await desk.job(jobId);
    const question = job?.questions.find((each) => each.id === id);
    if (!job || !question) return refused("not found", { detail: "There is no such question." });
    const who = handOf(desk, by, YOUR_NAME);
    if ("refused" in who) return who;
    const row = { id: desk.newId(), jobId: job.id, at: desk.at, questionId: id, by: who.by, text };
    return {
      answer: { ...question, replies: [...question.replies, row] },
      writes: [addReply(desk.db, row)],
      trail: {
        job: job.id,
        head: job.head,
        events: [{ is: "question answered", content: { by: who.by, record: await tellingOf("question_replies", row) } }],
      },
    };
  },
});
