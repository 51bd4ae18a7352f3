import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import { estimateBlocks } from "./estimate/estimateBlocks.js";
import { numberOf, subjectOf, unitName } from "./estimate/subject.js";
import { printSubject } from "./printSubject.js";

/** The estimate as the owner gets it. Shows what is charged, never what it cost the shop. Same sheet and input, same bytes. */
export function estimatePdf(sheet: Sheet, input: EstimateInput): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const subject = subjectOf(sheet, input);
  const title = ["Estimate", numberOf(subject), unitName(subject)].filter(Boolean).join(" · ");
  return printSubject(subject, title, estimateBlocks(subject));
}
