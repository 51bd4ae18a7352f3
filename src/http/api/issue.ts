/** What becomes of a draft: issued, it never changes; a mistaken one is withdrawn; the next one goes on from the last, or adds a fault; two are compared. */
import { createRoute, z } from "@hono/zod-openapi";
import { addNextEstimate } from "../../acts/beginDraft.js";
import { compared } from "../../acts/compared.js";
import { addExtraFault, priceExtraFault } from "../../acts/extraFault.js";
import { issueEstimate } from "../../acts/issue.js";
import { jobAsItStands } from "../../acts/job.js";
import { keptIssue } from "../../acts/shapes/agreements.js";
import { changes } from "../../acts/shapes/changes.js";
import { withdrawDraft } from "../../acts/withdrawDraft.js";
import { issues } from "../../records/issues.js";
import { ALWAYS, json, problems } from "../doors/answers.js";
import { apiDoor } from "../doors/api.js";
import { etagOf } from "../doors/etag.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";
import { press } from "../papers/issuing.js";
import { refused } from "./change.js";

export const issue = router();
const revision = z.coerce.number().int().min(1).max(1_000_000).optional();
const params = z.strictObject({ id: z.string().min(1).max(100) });

apiDoor(issue, issueEstimate, {
  ...{ path: "/api/estimates/{id}/issue", tag: "estimates", status: 200, onVersion: true },
  description:
    "The address and the code of the owner's page stand on its PDF only; where owners cannot reach the shop there are none, and it is given on paper.",
  on: ({ id }, seen, c) => ({ id, seen, ...press(c) }),
  refusals: [
    "not found",
    "estimate issued",
    "estimate unready",
    "letters missing",
    "profile unmet",
    "owner answered",
    "job closed",
    "no public address",
  ],
  shown: ({ record }) => record,
  headers: ({ record }) => ({ etag: etagOf(record) }),
  headersTold: { ETag: "Its version" },
});

look(issue, {
  ...{ path: "/api/estimates/{id}/issue", tag: "estimates", name: "findIssue", answer: keptIssue, says: "The issue" },
  title: "Who issued an estimate and when, with the hashes of its content and its PDF",
  none: "There is no such issued estimate.",
  one: async (c, { id }) => {
    const found = await issues.find(c.var.db, id);
    const current = found && (await issues.ofJob(c.var.db, found.jobId)).at(-1);
    return found && { ...found, superseded: current?.id !== found.id };
  },
});

apiDoor(issue, addNextEstimate, {
  ...{ path: "/api/jobs/{id}/estimates", tag: "estimates" },
  on: ({ id }) => ({ job: id }),
  refusals: ["not found", "draft open"],
  headers: (draft) => ({ location: `/api/estimates/${encodeURIComponent(draft.id)}`, etag: etagOf(draft) }),
  headersTold: { Location: "The draft", ETag: "Its version" },
});

apiDoor(issue, withdrawDraft, {
  ...{ path: "/api/estimates/{id}/withdrawal", tag: "estimates", status: 200 },
  description: "A draft only. The next one takes its number; the trail tells that it was, by whom it was withdrawn and why",
  on: ({ id }) => ({ id }),
  refusals: ["not found", "estimate issued"],
});

apiDoor(issue, priceExtraFault, {
  ...{ path: "/api/jobs/{id}/extra-fault/price", tag: "estimates", status: 200 },
  description:
    "Now, the unit being as open as it is, and at a visit of its own. Parts, work and places may be called by name. Nothing is kept",
  on: ({ id }) => ({ job: id }),
  refusals: ["not found"],
});

apiDoor(issue, addExtraFault, {
  ...{ path: "/api/jobs/{id}/extra-fault", tag: "estimates" },
  description: "At today's prices. With `base` it is refused where the job's newest revision is another by now",
  on: ({ id }) => ({ job: id }),
  refusals: ["not found", "version moved"],
  headers: (draft) => ({ location: `/api/estimates/${encodeURIComponent(draft.id)}`, etag: etagOf(draft) }),
  headersTold: { Location: "The draft", ETag: "Its version" },
});

issue.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/changes",
    tags: ["estimates"],
    operationId: "compareRevisions",
    summary: "What changed between two revisions of a job",
    description:
      "`from` and `to` are revision numbers; without them the last is compared with what was agreed before it, or with the one before it. What the owner agreed to is compared as agreed",
    request: { params, query: z.strictObject({ from: revision, to: revision }) },
    responses: {
      200: json(changes, "What changed"),
      ...problems("not found", "query refused", "estimate unready", ...ALWAYS),
    },
  }),
  async (c) => {
    const { from: first, to: last } = c.req.valid("query");
    const job = await jobAsItStands(c.var.db, c.req.valid("param").id);
    const missing = [first, last].find(
      (number) => number !== undefined && !job?.revisions.some(({ revision }) => revision === number),
    );
    if (!job || missing !== undefined)
      return refused(c, "not found", { detail: job ? `The job has no revision ${missing}.` : "There is no such job." });
    const found = compared(job, { ...(first !== undefined && { from: first }), ...(last !== undefined && { to: last }) });
    if (!found.from) return refused(c, "not found", { detail: "The job has no two revisions to compare." });
    if (!found.changes)
      return refused(c, "estimate unready", {
        detail: "The two cannot be compared: one has problems, or their currencies differ.",
      });
    return c.json(found.changes as never, 200) as never;
  },
);
