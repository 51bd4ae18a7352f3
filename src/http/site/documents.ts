/** Documents from the pages: of an estimate on record, and of a form that is not saved yet. */
import { type Context, Hono } from "hono";
import { beforeOf } from "../../acts/issue.js";
import { decidedFor, shopPaperwork } from "../../acts/paperwork.js";
import { benchSheetPdf } from "../../documents/benchSheetPdf.js";
import { type EstimateOptions, estimatePdf } from "../../documents/estimatePdf.js";
import { shopCopyPdf } from "../../documents/shopCopyPdf.js";
import { estimate } from "../../estimating/estimate.js";
import type { EstimateInput } from "../../estimating/input.js";
import type { Ask } from "../../estimating/sheet/sheetOf.js";
import type { Sheet } from "../../estimating/sheet.js";
import { complaintsOf } from "../../pages/form/complaints.js";
import { readForm } from "../../pages/form/readForm.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { owners } from "../../records/owners.js";
import type { AppEnv } from "../bindings.js";
import { logoOf } from "../doors/logo.js";
import { calendarAnswer } from "../papers/calendarAnswer.js";
import { earlierOf } from "../papers/issuing.js";
import { pdfAnswer } from "../papers/pdfAnswer.js";
import { printedBenchSheet, printedEstimate, printedIntakeReceipt, printedShopCopy } from "../papers/printed.js";
import { refuse } from "../problems/refuse.js";
import { formOf, isForm } from "./form.js";
import { draftedIn, shopOf } from "./intakeFields.js";

export const documents = new Hono<AppEnv>();

type Print = (
  sheet: Sheet,
  input: EstimateInput,
  options: Pick<EstimateOptions, "logo" | "earlier">,
) => ReturnType<typeof estimatePdf>;

documents.post("/estimates/preview.pdf", (c) => preview(c, estimatePdf, "estimate-preview"));
documents.post("/estimates/bench-preview.pdf", (c) =>
  preview(c, (sheet, input) => benchSheetPdf(sheet, input), "bench-sheet-preview"),
);
documents.post("/estimates/shop-preview.pdf", (c) => preview(c, shopCopyPdf, "shop-copy-preview", { risk: true }));
documents.get("/estimates/:id/bench-sheet.pdf", (c) => printed(c, c.req.param("id"), printedBenchSheet));
documents.get("/estimates/:id/shop-copy.pdf", (c) => printed(c, c.req.param("id"), printedShopCopy));
documents.get("/estimates/:id/intake-receipt.pdf", async (c) => {
  const found = await estimates.find(c.var.db, c.req.param("id"));
  return found ? printedIntakeReceipt(c, found) : refuse(c, "not found", { detail: "There is no such estimate." });
});
documents.get("/estimates/:file{[^/]+\\.pdf}", (c) => printed(c, c.req.param("file").slice(0, -4), printedEstimate));

documents.get("/jobs/:id/calendar.ics", (c) => {
  const id = c.req.param("id");
  return calendarAnswer(c, id, `${new URL(c.req.url).origin}/jobs/${id}`);
});

async function preview(c: Context<AppEnv>, print: Print, name: string, ask: Ask = {}) {
  if (!isForm(c)) return refuse(c, "media type unsupported", { detail: "Send the form as application/x-www-form-urlencoded." });
  const { fields } = await formOf(c);
  const found = await draftedIn(c, fields.get("meta.estimate") ?? "");
  const { context, settings } = await shopOf(c, found, fields);
  const read = readForm(fields, context);
  const outcome = estimate(read.input, ask);
  const [complaint, ...more] = complaintsOf(read, outcome, context);
  if (complaint || !outcome.ok) {
    const others = more.length > 0 ? ` ${more.length} more stand on the form.` : "";
    return refuse(c, "input refused", { detail: `${complaint?.text ?? ""}${others} Close this, put it right, and ask again.` });
  }
  const owner = await owners.find(c.var.db, fields.get("owner.id") ?? "");
  const own = found?.estimate.input.paperwork;
  const paperwork = {
    ...read.input.paperwork,
    ...shopPaperwork(settings, read.input.policy?.profile, owner),
    ...decidedFor(own),
    date: context.today,
  };
  const logo = await logoOf(c.var.db, paperwork);
  const before = found && beforeOf(found.job, found.estimate.revision);
  const options = { logo, earlier: before && earlierOf(before) };
  return pdfAnswer(c, await print(outcome.sheet, { ...read.input, paperwork }, options), name);
}

async function printed(c: Context<AppEnv>, id: string, print: typeof printedEstimate) {
  const found = await estimates.find(c.var.db, id);
  if (!found) return refuse(c, "not found", { detail: "There is no such estimate." });
  if (!found.sheet) return refuse(c, "estimate unready", { detail: await whyUnready(c, found) });
  return print(c, found, found.sheet);
}

async function whyUnready(c: Context<AppEnv>, found: Estimate): Promise<string> {
  const problems = await estimates.problemsOf(c.var.db, found);
  return `It has ${problems.length === 1 ? "an entry" : `${problems.length} entries`} to put right; open it to see which.`;
}
