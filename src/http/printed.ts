/** Documents of an estimate on record. The estimate of an issued revision is never printed again: its bytes are kept. */
import type { Context } from "hono";
import { benchSheetPdf } from "../documents/benchSheetPdf.js";
import { estimatePdf } from "../documents/estimatePdf.js";
import type { Sheet } from "../estimating/sheet.js";
import { type Estimate, estimates } from "../records/estimates.js";
import { issues } from "../records/issues.js";
import type { AppEnv } from "./bindings.js";
import { paperworkOf } from "./paperwork.js";
import { pdfAnswer } from "./pdfAnswer.js";

export async function printedEstimate(c: Context<AppEnv>, estimate: Estimate, sheet: Sheet): Promise<Response> {
  const paperwork = await paperworkOf(c.var.db, estimate, c.var.clock());
  const name = `estimate-${paperwork.number}-${estimate.revision}`;
  const bytes = estimate.issuedAt && (await issues.pdf(c.var.db, estimate.id));
  if (bytes) return pdfAnswer(c, { bytes, warnings: [] }, name);
  const input = { ...(await estimates.inputOf(c.var.db, estimate)), paperwork };
  return pdfAnswer(c, await estimatePdf(sheet, input), name);
}

export async function printedBenchSheet(c: Context<AppEnv>, estimate: Estimate, sheet: Sheet): Promise<Response> {
  const paperwork = await paperworkOf(c.var.db, estimate, c.var.clock());
  const input = { ...(await estimates.inputOf(c.var.db, estimate)), paperwork };
  return pdfAnswer(c, await benchSheetPdf(sheet, input), `bench-sheet-${paperwork.number}-${estimate.revision}`);
}
