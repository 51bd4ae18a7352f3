import type { EstimateInput, Minor, Paperwork } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import { money, type Tongue } from "../../wording/index.js";

/** What a document is about. Every figure is the sheet's; documents add nothing up. */
export interface Subject {
  readonly sheet: Sheet;
  readonly input: EstimateInput;
  readonly paperwork: Paperwork;
  readonly tongue: Tongue;
  readonly cash: (amount: Minor) => string;
}

export function subjectOf(sheet: Sheet, input: EstimateInput): Subject {
  const paperwork = input.paperwork ?? {};
  const tongue: Tongue = { locale: paperwork.locale ?? "en-GB", currency: sheet.currency };
  return { sheet, input, paperwork, tongue, cash: (amount) => money(amount, tongue) };
}

export const unitName = ({ input }: Subject): string => [input.unit.maker, input.unit.model].filter(Boolean).join(" ") || "Unit";

/** 'J-2026-0001, revision 1', as far as it is known. */
export const numberOf = ({ paperwork: { number, revision } }: Subject): string =>
  [number, revision === undefined ? undefined : `revision ${revision}`].filter(Boolean).join(", ");
