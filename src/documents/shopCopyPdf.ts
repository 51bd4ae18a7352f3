import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import { estimateBlocks } from "./estimate/estimateBlocks.js";
import { numberOf, subjectOf, unitName } from "./estimate/subject.js";
import type { EstimateOptions } from "./estimatePdf.js";
import { printSubject } from "./printSubject.js";
import type { JobRisk } from "./risk/jobRisk.js";
import { riskPage } from "./risk/riskPage.js";

export type { JobRisk };

/** The estimate and a page for the shop. It stays in the shop: the owner gets `estimatePdf`. Same arguments, same bytes. */
export function shopCopyPdf(
  sheet: Sheet,
  input: EstimateInput,
  risk: JobRisk,
  { earlier }: EstimateOptions = {},
): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const subject = subjectOf(sheet, input, earlier);
  const title = ["Shop's copy", numberOf(subject), unitName(subject)].filter(Boolean).join(" · ");
  return printSubject(subject, title, [...estimateBlocks(subject), ...riskPage(risk, subject)]);
}
