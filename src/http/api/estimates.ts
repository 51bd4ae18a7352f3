/** A job's estimates: drafts that can be priced, issued revisions that never change, and their documents. */
import { createRoute, z } from "@hono/zod-openapi";
import { eq } from "drizzle-orm";
import type { Context } from "hono";
import { benchSheetPdf } from "../../documents/benchSheetPdf.js";
import { estimatePdf } from "../../documents/estimatePdf.js";
import { estimate as compute } from "../../estimating/estimate.js";
import type { Database } from "../../records/database.js";
import { type Estimate, type EstimateValue, estimatesTable, estimates as records } from "../../records/estimates.js";
import { rateBooks } from "../../records/rateBooks.js";
import type { AppEnv } from "../bindings.js";
import { paperworkOf } from "../paperwork.js";
import { pdfAnswer } from "../pdfAnswer.js";
import { engineFaults } from "../problems/refuse.js";
import type { Fault } from "../problems/shape.js";
import { estimateValue, issue, keptEstimate } from "../schemas/resources.js";
import { sheet } from "../schemas/sheet.js";
import { ALWAYS, json, ON_BODY, pdf, problems } from "./answers.js";
import { heldBack, refused, replaced } from "./change.js";
import { etagOf } from "./etag.js";
import { once } from "./once.js";
import { resource } from "./resource.js";

type Stays = { readonly is: "issued" | "unready"; readonly current: Estimate };

const tags = ["estimates"];
const params = z.strictObject({ id: z.string().min(1).max(100) });
const missing = { detail: "There is no such estimate." };

/** A draft kept by a page may have problems; the API keeps only what can be priced. */
async function check(db: Database, { rateBookId, rateBookVersion, input }: EstimateValue): Promise<readonly Fault[]> {
  const kept = await rateBooks.findVersion(db, rateBookId, rateBookVersion);
  // An unknown book is answered when the record is written.
  if (!kept) return [];
  const outcome = compute({ ...input, rateBook: kept.book });
  return outcome.ok ? [] : engineFaults(outcome.problems, "/input");
}

const stays = (c: Context<AppEnv>, answer: Stays): never =>
  refused(c, answer.is === "issued" ? "estimate issued" : "estimate unready", { headers: { etag: etagOf(answer.current) } });

export const estimates = resource<EstimateValue, Estimate, Stays>(
  {
    path: "/api/estimates",
    one: "estimate",
    many: "estimates",
    value: estimateValue,
    kept: keptEstimate,
    narrow: { job: "Only estimates of this job" },
    list: (db, wanted, { job }) => records.list(db, wanted, job ? eq(estimatesTable.jobId, job) : undefined),
    find: records.find,
    add: records.add,
    replace: records.replace,
    check,
  },
  stays,
);

estimates.openapi(
  createRoute({
    method: "post",
    path: "/api/estimates/{id}/issue",
    tags,
    operationId: "issueEstimate",
    summary: "Issue a draft: it then never changes",
    middleware: once,
    request: {
      params,
      headers: z.object({ "if-match": z.string().optional().openapi({ description: "The ETag last seen; wanted" }) }),
      body: { required: true, content: { "application/json": { schema: issue } } },
    },
    responses: {
      200: json(keptEstimate, "Issued"),
      ...problems("not found", "estimate issued", "estimate unready", "version wanted", "version moved", ...ON_BODY, ...ALWAYS),
    },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    const current = await records.find(c.var.db, id);
    const held = heldBack(c, "estimate", current);
    if (held || !current) return held!;
    const now = c.var.clock();
    const out = { by: c.req.valid("json").by, paperwork: await paperworkOf(c.var.db, current, now) };
    const answer = await records.issue(c.var.db, id, current.version, out, now.toISOString());
    return replaced(c, "estimate", answer, stays) as never;
  },
);

/** The sheet of an estimate, or why there is none. */
async function sheetOf(c: Context<AppEnv>, id: string) {
  const found = await records.find(c.var.db, id);
  if (!found) return { refusal: refused(c, "not found", missing) };
  if (found.sheet) return { found, sheet: found.sheet };
  const errors = engineFaults(await records.problemsOf(c.var.db, found), "/input");
  return { refusal: refused(c, "estimate unready", { errors }) };
}

estimates.openapi(
  createRoute({
    method: "get",
    path: "/api/estimates/{id}/sheet",
    tags,
    operationId: "findSheet",
    summary: "The sheet of an estimate",
    request: { params },
    responses: { 200: json(z.strictObject({ sheet }), "The sheet"), ...problems("not found", "estimate unready", ...ALWAYS) },
  }),
  async (c) => {
    const answer = await sheetOf(c, c.req.valid("param").id);
    return answer.sheet ? (c.json({ sheet: answer.sheet as z.infer<typeof sheet> }, 200) as never) : answer.refusal!;
  },
);

const printed = [
  { document: "estimate.pdf", operationId: "printKeptEstimate", summary: "An estimate as PDF", print: estimatePdf },
  { document: "bench-sheet.pdf", operationId: "printKeptBenchSheet", summary: "Its bench sheet as PDF", print: benchSheetPdf },
] as const;

for (const { document, operationId, summary, print } of printed) {
  estimates.openapi(
    createRoute({
      method: "get",
      path: `/api/estimates/{id}/${document}`,
      tags,
      operationId,
      summary,
      request: { params },
      responses: { 200: pdf(summary), ...problems("not found", "estimate unready", ...ALWAYS) },
    }),
    async (c) => {
      const answer = await sheetOf(c, c.req.valid("param").id);
      if (!answer.sheet) return answer.refusal!;
      const paperwork = await paperworkOf(c.var.db, answer.found, c.var.clock());
      const input = { ...(await records.inputOf(c.var.db, answer.found)), paperwork };
      const name = `${document.replace(".pdf", "")}-${paperwork.number}-${answer.found.revision}`;
      return pdfAnswer(c, await print(answer.sheet, input), name) as never;
    },
  );
}
