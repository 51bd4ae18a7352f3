import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import type { Earlier } from "./estimate/earlier.js";
import { estimateBlocks, shorterBlocks } from "./estimate/estimateBlocks.js";
import { numberOf, subjectOf, unitName } from "./estimate/subject.js";
import type { Picture } from "./picture/picture.js";
import { printSubject } from "./printDocument.js";

export interface EstimateOptions {
  /** The revision that this one replaces: what changed is said and marked. */
  readonly earlier?: Earlier | undefined;
  /** It says that it is not issued. */
  readonly draft?: boolean | undefined;
  /** The picture that the paperwork's `logo` names. */
  readonly logo?: Picture | undefined;
  /** The pictures of the paperwork's `photos`, by their SHA-256; printed on the last pages. */
  readonly photos?: ReadonlyMap<string, Picture> | undefined;
}

/** The estimate as the owner gets it. Shows what is charged, never what it cost the shop. Same sheets and inputs, same bytes. */
export function estimatePdf(
  sheet: Sheet,
  input: EstimateInput,
  options: EstimateOptions = {},
): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const subject = subjectOf(sheet, input, options);
  const title = [subject.words.paper.head.estimate, numberOf(subject), unitName(subject)].filter(Boolean).join(" · ");
  return printSubject(subject, title, estimateBlocks(subject), shorterBlocks(subject));
}
