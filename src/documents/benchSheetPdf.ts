import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import { benchHead } from "./bench/benchHead.js";
import { benchCautions } from "./bench/cautions.js";
import { pickList } from "./bench/pickList.js";
import { refit } from "./bench/refit.js";
import { removal } from "./bench/removal.js";
import { testAndSoak, work, workIfFound } from "./bench/work.js";
import { writing } from "./bench/writing.js";
import { numberOf, subjectOf, unitName } from "./estimate/subject.js";
import { printSubject } from "./printSubject.js";

/** The work order that lies on the bench: stays in the shop. Same sheet and input, same bytes. */
export function benchSheetPdf(sheet: Sheet, input: EstimateInput): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const subject = subjectOf(sheet, input);
  const name = ["Bench sheet", numberOf(subject), unitName(subject)].filter(Boolean).join(" · ");
  return printSubject(subject, name, [
    ...benchHead(subject),
    ...benchCautions(subject),
    ...pickList(subject),
    ...removal(subject),
    ...work(subject),
    ...workIfFound(subject),
    ...refit(subject),
    ...testAndSoak(subject),
    ...writing(),
  ]);
}
