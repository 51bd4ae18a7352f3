/** What owners asked on their page, and the shop's replies. */
import { createRoute, z } from "@hono/zod-openapi";
import { uuidv7 } from "uuidv7";
import { keptQuestion, reply } from "../../acts/shapes/agreements.js";
import { jobs } from "../../records/jobs.js";
import { questions as records } from "../../records/questions.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { refused } from "./change.js";
import { once } from "./once.js";
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

questions.openapi(
  createRoute({
    method: "post",
    path: "/api/questions/{id}/replies",
    tags,
    operationId: "addReply",
    summary: "Reply to a question",
    middleware: once,
    request: {
      params,
      headers: z.object({ "idempotency-key": z.string().optional() }),
      body: { required: true, content: { "application/json": { schema: reply } } },
    },
    responses: {
      201: json(keptQuestion, "The question with its replies"),
      ...problems("not found", "header refused", "idempotency key in flight", "idempotency key reused", ...ON_BODY, ...ALWAYS),
    },
  }),
  async (c) => {
    const at = c.var.clock().toISOString();
    const question = await records.reply(c.var.db, c.req.valid("param").id, uuidv7(), c.req.valid("json"), at);
    if (!question) return refused(c, "not found", { detail: "There is no such question." });
    return c.json(question as never, 201) as never;
  },
);
