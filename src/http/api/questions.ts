/** What owners asked on their page, and the shop's replies. */
import { createRoute, z } from "@hono/zod-openapi";
import { replyToQuestion } from "../../acts/replyToQuestion.js";
import { keptQuestion } from "../../acts/shapes/agreements.js";
import { jobs } from "../../records/jobs.js";
import { questions as records } from "../../records/questions.js";
import { apiDoor } from "../doors/api.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { router } from "./router.js";

export const questions = router();
const tags = ["questions"];
const params = z.strictObject({ id: z.string().min(1).max(100) });

questions.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/questions",
    tags,
    operationId: "listQuestions",
    summary: "What the owner asked, with the replies, oldest first",
    request: { params },
    responses: { 200: json(z.strictObject({ items: z.array(keptQuestion) }), "Questions"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    if (!(await jobs.find(c.var.db, id))) return refused(c, "not found", { detail: "There is no such job." });
    return c.json({ items: await records.ofJob(c.var.db, id) }, 200) as never;
  },
);

apiDoor(questions, replyToQuestion, {
  path: "/api/questions/{id}/replies",
  tag: "questions",
  description: "The answer is the question with its replies",
  on: ({ id }) => ({ question: id }),
  refusals: ["not found"],
});
