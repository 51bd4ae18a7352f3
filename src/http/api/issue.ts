/** Issuing: a draft becomes a revision that never changes. And the next draft, copied from the last revision. */
import { createRoute, z } from "@hono/zod-openapi";
import { addNextEstimate } from "../../acts/beginDraft.js";
import { issueEstimate } from "../../acts/issue.js";
import { keptIssue } from "../../acts/shapes/agreements.js";
import { issues } from "../../records/issues.js";
import { apiDoor } from "../doors/api.js";
import { press } from "../issuing.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { etagOf } from "./etag.js";
import { router } from "./router.js";

export const issue = router();
const params = z.strictObject({ id: z.string().min(1).max(100) });

apiDoor(issue, issueEstimate, {
  ...{ path: "/api/estimates/{id}/issue", tag: "estimates", status: 200, onVersion: true },
  description: "The address and the code of the owner's page stand on its PDF only.",
  on: ({ id }, seen, c) => ({ id, seen, ...press(c, id) }),
  refusals: ["not found", "estimate issued", "estimate unready", "profile unmet", "owner answered", "job closed"],
  shown: ({ record }) => record,
  headers: ({ record }) => ({ etag: etagOf(record) }),
  headersTold: { ETag: "Its version" },
});

issue.openapi(
  createRoute({
    method: "get",
    path: "/api/estimates/{id}/issue",
    tags: ["estimates"],
    operationId: "findIssue",
    summary: "Who issued an estimate and when, with the hashes of its content and its PDF",
    request: { params },
    responses: { 200: json(keptIssue, "The issue"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const found = await issues.find(c.var.db, c.req.valid("param").id);
    if (!found) return refused(c, "not found", { detail: "There is no such issued estimate." });
    const current = (await issues.ofJob(c.var.db, found.jobId)).at(-1);
    return c.json({ ...found, superseded: current?.id !== found.id }, 200) as never;
  },
);

apiDoor(issue, addNextEstimate, {
  ...{ path: "/api/jobs/{id}/estimates", tag: "estimates" },
  on: ({ id }) => ({ job: id }),
  refusals: ["not found", "draft open"],
  headers: (draft) => ({ location: `/api/estimates/${encodeURIComponent(draft.id)}`, etag: etagOf(draft) }),
  headersTold: { Location: "The draft", ETag: "Its version" },
});
