import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import { agreedOf, type BenchOptions, notAgreed } from "./bench/agreed.js";
import { benchCautions, benchHead } from "./bench/benchHead.js";
import { refit, removal } from "./bench/order.js";
import { pickList, writing } from "./bench/pickList.js";
import { memoryFirst, testAndSoak, work, workIfFound } from "./bench/work.js";
import { forTheShop, numberOf, type Subject, subjectOf, unitName } from "./estimate/subject.js";
import type { Block } from "./layout/block.js";
import { printSubject } from "./printDocument.js";

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

/** All that the bench sheet says, in the order the work goes. */
export function benchBlocks(subject: Subject, options: BenchOptions = {}): Block[] {
  const agreed = agreedOf(subject, options);
  return [
    ...benchHead(subject, agreed),
    ...notAgreed(agreed),
    ...benchCautions(subject),
    ...memoryFirst(subject, agreed),
    ...pickList(subject, agreed),
    ...removal(subject, agreed),
    ...work(subject, agreed),
    ...workIfFound(subject, agreed),
    ...refit(subject, agreed),
    ...testAndSoak(subject, agreed),
    ...writing(),
  ];
}
