import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import type { Earlier } from "./estimate/earlier.js";
import { estimateBlocks } from "./estimate/estimateBlocks.js";
import { numberOf, subjectOf, unitName } from "./estimate/subject.js";
import { printSubject } from "./printSubject.js";

export interface EstimateOptions {
  /** The revision that this one replaces: what changed is said and marked. */
  readonly earlier?: Earlier | undefined;
}

/** The estimate as the owner gets it. Shows what is charged, never what it cost the shop. Same sheets and inputs, same bytes. */
export function estimatePdf(
  sheet: Sheet,
  input: EstimateInput,
  { earlier }: EstimateOptions = {},
): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const subject = subjectOf(sheet, input, earlier);
  const title = [subject.words.paper.head.estimate, numberOf(subject), unitName(subject)].filter(Boolean).join(" · ");
  return printSubject(subject, title, estimateBlocks(subject));
}
