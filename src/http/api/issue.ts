/** Issuing: a draft becomes a revision that never changes. And the next draft, copied from the last revision. */
import { createRoute, z } from "@hono/zod-openapi";
import { uuidv7 } from "uuidv7";
import { engineFaults } from "../../acts/fault.js";
import { issue as issueShape, keptIssue } from "../../acts/shapes/agreements.js";
import { keptEstimate } from "../../acts/shapes/resources.js";
import { estimates } from "../../records/estimates.js";
import { issues } from "../../records/issues.js";
import { nextDraft } from "../../records/nextDraft.js";
import { issueDraft } from "../issuing.js";
import { profileFaults } from "../problems/profileFaults.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { heldBack, moved, refused } from "./change.js";
import { etagOf } from "./etag.js";
import { once } from "./once.js";
import { router } from "./router.js";

export const issue = router();
const params = z.strictObject({ id: z.string().min(1).max(100) });
const ifMatch = z.object({ "if-match": z.string().optional().meta({ description: "The ETag last seen; wanted" }) });
const keyed = z.object({
  "idempotency-key": z.string().optional().meta({ description: "A repeat within a day gets the first answer again" }),
});
const keyRefusals = ["header refused", "idempotency key in flight", "idempotency key reused"] as const;

issue.openapi(
  createRoute({
    method: "post",
    path: "/api/estimates/{id}/issue",
    tags: ["estimates"],
    operationId: "issueEstimate",
    summary: "Issue a draft: it then never changes, and its PDF is kept",
    middleware: once,
    request: {
      params,
      headers: ifMatch.extend(keyed.shape),
      body: { required: true, content: { "application/json": { schema: issueShape } } },
    },
    responses: {
      200: {
        ...json(keptEstimate, "Issued; the address and the code of the owner's page stand on its PDF only"),
        headers: { ETag: { schema: { type: "string" }, description: "Its version" } },
      },
      ...problems(
        ...(["not found", "estimate issued", "estimate unready", "profile unmet", "owner answered", "job closed"] as const),
        ...(["version wanted", "version moved", ...keyRefusals, ...ON_BODY, ...ALWAYS] as const),
      ),
    },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    const current = await estimates.find(c.var.db, id);
    if (current?.issuedAt) return refused(c, "estimate issued", { headers: { etag: etagOf(current) } });
    const held = heldBack(c, "estimate", current);
    if (held || !current) return held!;
    const answer = await issueDraft(c, current, c.req.valid("json"));
    switch (answer.is) {
      case "issued":
        c.header("etag", etagOf(answer.record));
        return c.json(answer.record as never, 200) as never;
      case "issued already":
        return refused(c, "estimate issued", { headers: { etag: etagOf(answer.current) } });
      case "moved":
        return refused(c, "version moved", moved(answer.current));
      case "unready":
        return refused(c, "estimate unready", {
          errors: engineFaults(await estimates.problemsOf(c.var.db, answer.current), "/input"),
        });
      case "profile unmet":
        return refused(c, "profile unmet", { errors: profileFaults(answer.lacks, answer.input, "/input") });
      case "photos unfit":
        return refused(c, "estimate unready", { detail: answer.detail });
      case "closed":
        return refused(c, "job closed", { detail: `The job was closed on ${answer.on}; a new fault is a new job.` });
      case "owner answered":
        return refused(c, "owner answered");
      case "missing":
        return refused(c, "not found", { detail: "There is no such estimate." });
    }
  },
);

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

issue.openapi(
  createRoute({
    method: "post",
    path: "/api/jobs/{id}/estimates",
    tags: ["estimates"],
    operationId: "addNextEstimate",
    summary: "The next revision as a draft, copied from the last one",
    middleware: once,
    request: {
      params,
      headers: keyed,
      body: { required: true, content: { "application/json": { schema: z.strictObject({}) } } },
    },
    responses: {
      201: {
        ...json(keptEstimate, "Added"),
        headers: { Location: { schema: { type: "string" } }, ETag: { schema: { type: "string" } } },
      },
      ...problems("not found", "draft open", ...keyRefusals, ...ON_BODY, ...ALWAYS),
    },
  }),
  async (c) => {
    const answer = await nextDraft(c.var.db, c.req.valid("param").id, uuidv7(), c.var.clock().toISOString());
    if (answer.is === "missing")
      return refused(c, "not found", { detail: "There is no such job, or no estimate to go on from." });
    const { is } = answer;
    const draft = is === "added" ? answer.record : answer.current;
    const headers = { location: `/api/estimates/${encodeURIComponent(draft.id)}`, etag: etagOf(draft) };
    if (is === "draft open") return refused(c, "draft open", { headers, current: draft });
    return c.json(draft as never, 201, headers) as never;
  },
);
