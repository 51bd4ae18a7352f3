/** Closing a job, what it came to, and its final account. */
import { createRoute, z } from "@hono/zod-openapi";
import { closeDeclined } from "../../acts/closeDeclined.js";
import { closeJob } from "../../acts/closeJob.js";
import { keptCloseOut } from "../../acts/shapes/closeOuts.js";
import { type CloseOutRecord, closeOuts as records } from "../../records/closeOuts.js";
import { jobs } from "../../records/jobs.js";
import { ALWAYS, pdf, problems } from "../doors/answers.js";
import { apiDoor } from "../doors/api.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";
import { pdfAnswer } from "../papers/pdfAnswer.js";
import { refused } from "./change.js";

export const closeOuts = router();
const tags = ["close-outs"];
const params = z.strictObject({ id: z.string().min(1).max(100) });
const NOT_CLOSED = "There is no such job, or it is not closed.";

/** What it was reckoned from is kept for checking; the records it comes from have addresses of their own. */
const withoutBasis = ({ basis: _, ...record }: CloseOutRecord) => record;
const tag = ({ contentHash }: Pick<CloseOutRecord, "contentHash">): string => `"${contentHash}"`;

apiDoor(closeOuts, closeJob, {
  path: "/api/jobs/{id}/close-outs",
  tag: "close-outs",
  on: ({ id }) => ({ job: id }),
  refusals: ["not found", "nothing agreed", "closed already", "nothing to correct", "price differs"],
  headers: (record) => ({ etag: tag(record) }),
  headersTold: { ETag: "Of the close-out as it stands" },
});

apiDoor(closeOuts, closeDeclined, {
  path: "/api/jobs/{id}/hand-backs",
  tag: "close-outs",
  on: ({ id }) => ({ job: id }),
  refusals: ["not found", "not declined", "closed already", "nothing to correct", "price differs"],
  headers: (record) => ({ etag: tag(record) }),
  headersTold: { ETag: "Of the close-out as it stands" },
});

look(closeOuts, {
  ...{ path: "/api/jobs/{id}/close-outs", tag: "close-outs", name: "listCloseOuts", answer: keptCloseOut, says: "Close-outs" },
  title: "How a job was closed, and every correction, oldest first",
  none: "There is no such job.",
  all: async (c, { id }) => ((await jobs.find(c.var.db, id)) ? (await records.ofJob(c.var.db, id)).map(withoutBasis) : undefined),
});

look(closeOuts, {
  ...{ path: "/api/jobs/{id}/close-out", tag: "close-outs", name: "findCloseOut", answer: keptCloseOut, says: "The close-out" },
  title: "What a closed job came to, as it stands after corrections",
  none: NOT_CLOSED,
  one: async (c, { id }) => {
    const found = await records.standing(c.var.db, id);
    return found && withoutBasis(found);
  },
  tagOf: tag,
});

closeOuts.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/final-account.pdf",
    tags,
    operationId: "printFinalAccount",
    summary: "The final account as it left the shop",
    request: { params },
    responses: { 200: pdf("The final account"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    const [job, found] = await Promise.all([jobs.find(c.var.db, id), records.standing(c.var.db, id)]);
    const bytes = found && (await records.pdf(c.var.db, found.id));
    if (!job || !bytes?.length) return refused(c, "not found", { detail: NOT_CLOSED });
    return pdfAnswer(c, { bytes, warnings: [] }, `final-account-${job.number}`) as never;
  },
);
