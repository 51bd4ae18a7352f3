import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import { everyLine } from "./estimate/estimateBlocks.js";
import { forTheShop, numberOf, subjectOf, unitName } from "./estimate/subject.js";
import type { EstimateOptions } from "./estimatePdf.js";
import { printSubject } from "./printDocument.js";
import { riskPage } from "./risk/riskPage.js";

/**
 * The estimate, and a page for the shop where the sheet carries its risk (`estimate(input, { risk: true })`). It stays in the shop: the
 * owner gets `estimatePdf`. Same sheets and inputs, same bytes.
 */
export function shopCopyPdf(
  sheet: Sheet,
  input: EstimateInput,
  options: EstimateOptions = {},
): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const subject = subjectOf(sheet, forTheShop(input), options);
  const title = ["Shop's copy", numberOf(subject), unitName(subject)].filter(Boolean).join(" · ");
  const risk = sheet.risk ? riskPage(sheet.risk, subject) : [];
  return printSubject(subject, title, [...everyLine(subject), ...risk]);
}
