/** Owners' answers as the shop takes them: in person, by telephone, by e-mail. Answers on the owner's page come in at /o. */
import { createRoute, z } from "@hono/zod-openapi";
import { recordAnswer } from "../../acts/recordAnswer.js";
import { keptAgreement } from "../../acts/shapes/agreements.js";
import { answersOf } from "../../records/agreements.js";
import { jobs } from "../../records/jobs.js";
import { apiDoor } from "../doors/api.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { router } from "./router.js";

export const agreements = router();
const tags = ["agreements"];
const params = z.strictObject({ id: z.string().min(1).max(100) });

apiDoor(agreements, recordAnswer, {
  path: "/api/estimates/{id}/agreements",
  tag: "agreements",
  description: "A correction names the record it corrects. The same answer again is the record that stands.",
  on: ({ id }) => ({ estimate: id }),
  refusals: [
    ...(["not found", "estimate not issued", "content differs", "revision superseded", "answered already"] as const),
    ...(["nothing to correct", "job closed"] as const),
  ],
  shown: ({ again: _, ...record }) => record,
  statusOf: ({ again }) => (again ? 200 : 201),
});

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
