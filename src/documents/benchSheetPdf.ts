import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import { benchBlocks } from "./bench/benchBlocks.js";
import { numberOf, subjectOf, unitName } from "./estimate/subject.js";
import { printSubject } from "./printSubject.js";

/** The work order that lies on the bench: stays in the shop. Same sheet and input, same bytes. */
export function benchSheetPdf(sheet: Sheet, input: EstimateInput): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const subject = subjectOf(sheet, input);
  const title = ["Bench sheet", numberOf(subject), unitName(subject)].filter(Boolean).join(" · ");
  return printSubject(subject, title, benchBlocks(subject));
}
