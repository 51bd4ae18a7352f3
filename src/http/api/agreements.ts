/** Owners' answers as the shop takes them: in person, by telephone, by e-mail. Answers on the owner's page come in at /o. */
import { createRoute, z } from "@hono/zod-openapi";
import { uuidv7 } from "uuidv7";
import { agreement, keptAgreement } from "../../acts/shapes/agreements.js";
import { answersOf } from "../../records/agreements.js";
import { estimates } from "../../records/estimates.js";
import { jobs } from "../../records/jobs.js";
import { answering, answerRefused } from "../answering.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { refused } from "./change.js";
import { once } from "./once.js";
import { router } from "./router.js";

export const agreements = router();
const tags = ["agreements"];
const params = z.strictObject({ id: z.string().min(1).max(100) });

agreements.openapi(
  createRoute({
    method: "post",
    path: "/api/estimates/{id}/agreements",
    tags,
    operationId: "addAgreement",
    summary: "Put an owner's answer on record, or correct one that is",
    middleware: once,
    request: {
      params,
      headers: z.object({ "idempotency-key": z.string().optional() }),
      body: { required: true, content: { "application/json": { schema: agreement } } },
    },
    responses: {
      200: json(keptAgreement, "The same answer was on record already"),
      201: json(keptAgreement, "On record"),
      ...problems(
        ...([
          "not found",
          "estimate not issued",
          "revision superseded",
          "answered already",
          "nothing to correct",
          "job closed",
        ] as const),
        ...(["header refused", "idempotency key in flight", "idempotency key reused", ...ON_BODY, ...ALWAYS] as const),
      ),
    },
  }),
  async (c) => {
    const { struck = [], ...value } = c.req.valid("json");
    const found = await estimates.find(c.var.db, c.req.valid("param").id);
    if (!found) return refused(c, "not found", { detail: "There is no such estimate." });
    const { contentHash, input } = found;
    const answer = await answering(c, uuidv7(), { ...value, struck, estimateId: found.id, contentHash });
    if (answer.is === "recorded") return c.json(answer.record as never, answer.again ? 200 : 201) as never;
    const tongue = { locale: input.paperwork?.locale ?? "en-GB", currency: input.currency };
    return refused(c, ...answerRefused(answer, tongue));
  },
);

agreements.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/agreements",
    tags,
    operationId: "listAgreements",
    summary: "Every answer and correction of a job, oldest first",
    request: { params },
    responses: { 200: json(z.strictObject({ items: z.array(keptAgreement) }), "Answers"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    if (!(await jobs.find(c.var.db, id))) return refused(c, "not found", { detail: "There is no such job." });
    return c.json({ items: await answersOf(c.var.db, id) }, 200) as never;
  },
);
