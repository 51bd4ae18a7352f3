import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import type { BenchOptions } from "./bench/agreed.js";
import { benchBlocks } from "./bench/benchBlocks.js";
import { forTheShop, numberOf, subjectOf, unitName } from "./estimate/subject.js";
import { printSubject } from "./printSubject.js";

export type { BenchOptions };

/** The work order that lies on the bench: stays in the shop. Work that no agreement covers is marked. Same sheet, input and options, same bytes. */
export function benchSheetPdf(
  sheet: Sheet,
  input: EstimateInput,
  options: BenchOptions = {},
): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const subject = subjectOf(sheet, forTheShop(input));
  const title = ["Bench sheet", numberOf(subject), unitName(subject)].filter(Boolean).join(" · ");
  return printSubject(subject, title, benchBlocks(subject, options));
}
