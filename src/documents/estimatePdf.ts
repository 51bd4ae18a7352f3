import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import { agreement } from "./estimate/agreement.js";
import { ifFound, options, worthDoing } from "./estimate/choices.js";
import { condition } from "./estimate/condition.js";
import { inShort } from "./estimate/inShort.js";
import { ledger } from "./estimate/ledger.js";
import { meaning } from "./estimate/meaning.js";
import { parties } from "./estimate/parties.js";
import { numberOf, subjectOf, unitName } from "./estimate/subject.js";
import { taxTable } from "./estimate/taxTable.js";
import { printSubject } from "./printSubject.js";

/** The estimate as the owner gets it. Shows what is charged, never what it cost the shop. Same sheet and input, same bytes. */
export function estimatePdf(sheet: Sheet, input: EstimateInput): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const subject = subjectOf(sheet, input);
  const name = ["Estimate", numberOf(subject), unitName(subject)].filter(Boolean).join(" · ");
  return printSubject(subject, name, [
    ...parties(subject),
    ...condition(subject),
    ...inShort(subject),
    ...ledger(subject),
    ...taxTable(subject),
    ...options(subject),
    ...ifFound(subject),
    ...worthDoing(subject),
    ...meaning(subject),
    ...agreement(subject),
  ]);
}
