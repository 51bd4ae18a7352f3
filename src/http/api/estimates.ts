/** A job's estimates: drafts that can be priced, issued revisions that never change, and their documents. */
import { createRoute, z } from "@hono/zod-openapi";
import { eq } from "drizzle-orm";
import type { Context } from "hono";
import { addEstimate } from "../../acts/beginDraft.js";
import { engineFaults } from "../../acts/fault.js";
import { importLines } from "../../acts/importLines.js";
import type { JobAsItStands } from "../../acts/job.js";
import { keepForNextTime } from "../../acts/keepForNextTime.js";
import { paperworkOf } from "../../acts/paperwork.js";
import { saveDraft } from "../../acts/saveDraft.js";
import { keptEstimate } from "../../acts/shapes/resources.js";
import { type EarlierRevision, quotationXml } from "../../documents/quotationXml.js";
import { type Estimate, estimatesTable, estimates as records } from "../../records/estimates.js";
import type { AppEnv } from "../bindings.js";
import { fileRead } from "../dataIn/table.js";
import { linesCsv } from "../dataOut/lines.js";
import { ALWAYS, json, pdf, problems } from "../doors/answers.js";
import { apiDoor } from "../doors/api.js";
import { deskOf } from "../doors/desk.js";
import { resource } from "../doors/resource.js";
import { printedBenchSheet, printedEstimate, printedShopCopy } from "../papers/printed.js";
import { refused } from "./change.js";
import { promised, promisedSheet } from "./estimate.js";

const tags = ["estimates"];
const params = z.strictObject({ id: z.string().min(1).max(100) });
const missing = { detail: "There is no such estimate." };

export const estimates = resource({
  ...{ path: "/api/estimates", one: "estimate", many: "estimates", kept: keptEstimate, add: addEstimate, replace: saveDraft },
  narrow: { job: "Only estimates of this job" },
  list: (db, wanted, { job }) => records.list(db, wanted, job ? eq(estimatesTable.jobId, job) : undefined),
  find: records.find,
  replaceRefusals: ["estimate issued"],
});

apiDoor(estimates, keepForNextTime, {
  ...{ path: "/api/estimates/{id}/keeping", tag: "estimates", status: 200, refusals: ["not found", "role wanted"] },
  description:
    "Work becomes an operation of the shop's rate book, or a service where it has a price, in a next version from today; a part goes into the catalogue with what it cost as an offer. The estimate stays as it is",
  on: ({ id }) => ({ estimate: id }),
});

apiDoor(estimates, importLines, {
  ...{ path: "/api/estimates/{id}/lines", tag: "estimates", status: 200, refusals: ["not found", "estimate issued"] },
  description:
    "A row with the id of a line replaces that line; a row without one adds a line; lines that no row names stay. Headings are those of lines.csv",
  on: ({ id }) => ({ estimate: id, read: fileRead }),
});

estimates.openapi(
  createRoute({
    method: "get",
    path: "/api/estimates/{id}/lines.csv",
    tags,
    operationId: "exportLines",
    summary: "The lines of an estimate as CSV, each with all that was said of it; sent back, they change nothing",
    request: { params },
    responses: {
      200: { description: "CSV", content: { "text/csv": { schema: { type: "string" as const } } } },
      ...problems("not found", ...ALWAYS),
    },
  }),
  async (c) => {
    const found = await records.find(c.var.db, c.req.valid("param").id);
    if (!found) return refused(c, "not found", missing);
    return c.body(linesCsv(await records.inputOf(c.var.db, found)), 200, {
      "content-type": "text/csv; charset=utf-8; header=present",
      "content-disposition": 'attachment; filename="lines.csv"',
      "cache-control": "no-store",
    }) as never;
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
    responses: {
      200: json(promisedSheet, "The sheet, what it promises, and the price of each package"),
      ...problems("not found", "estimate unready", ...ALWAYS),
    },
  }),
  async (c) => {
    const answer = await sheetOf(c, c.req.valid("param").id);
    if (!answer.sheet) return answer.refusal!;
    return c.json(promised(await records.inputOf(c.var.db, answer.found), answer.sheet), 200) as never;
  },
);

const printed = [
  {
    document: "estimate.pdf",
    operationId: "printKeptEstimate",
    summary: "An estimate as PDF; once issued, the very bytes",
    print: printedEstimate,
  },
  {
    document: "bench-sheet.pdf",
    operationId: "printKeptBenchSheet",
    summary: "Its bench sheet as PDF",
    print: printedBenchSheet,
  },
  {
    document: "shop-copy.pdf",
    operationId: "printKeptShopCopy",
    summary: "The shop's copy as PDF, with what the job may cost the shop",
    print: printedShopCopy,
  },
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
      return (await print(c, answer.found, answer.sheet)) as never;
    },
  );
}

estimates.openapi(
  createRoute({
    method: "get",
    path: "/api/estimates/{id}/quotation.xml",
    tags,
    operationId: "findQuotation",
    summary: "An estimate as OASIS UBL 2.1 Quotation",
    request: { params },
    responses: {
      200: { description: "UBL 2.1 Quotation", content: { "application/xml": { schema: { type: "string" } } } },
      ...problems("not found", "estimate unready", ...ALWAYS),
    },
  }),
  async (c) => {
    const answer = await sheetOf(c, c.req.valid("param").id);
    if (!answer.sheet) return answer.refusal!;
    const { found } = answer;
    const job = (await deskOf(c).job(found.jobId))!;
    const input = { ...job.inputOf(found), paperwork: paperworkOf(job, found, c.var.clock()) };
    const xml = quotationXml(answer.sheet, input, earlierRevision(job, found));
    return c.body(xml, 200, { "content-type": "application/xml; charset=utf-8" }) as never;
  },
);

/** The issued revision before this one, as its own paper names it. */
function earlierRevision({ revisions }: JobAsItStands, { revision }: Estimate): EarlierRevision | undefined {
  const before = revisions.findLast((other) => other.issuedAt && other.revision < revision);
  const { number, date } = before?.input.paperwork ?? {};
  return before && number !== undefined && date !== undefined ? { number, revision: before.revision, date } : undefined;
}
