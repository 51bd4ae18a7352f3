import type { EstimateInput, Minor, Paperwork } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import { day, money, type Tongue } from "../../wording/index.js";
import { oneLine } from "../type/shape.js";
import { type Changes, changesSince, type Earlier } from "./earlier.js";

/** What a document is about. Every figure is the sheet's; documents add nothing up. */
export interface Subject {
  readonly sheet: Sheet;
  readonly input: EstimateInput;
  readonly paperwork: Paperwork;
  readonly tongue: Tongue;
  readonly cash: (amount: Minor) => string;
  /** Against the revision before, if there is one. */
  readonly changes?: Changes;
}

const ENGLISH = "en-GB";
const BEYOND_THE_FONTS = /[^\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}\p{Script=Inherited}]/u;

/** Figures and days follow the shop's locale, or English where the locale writes them in a script that the fonts lack. */
export function subjectOf(sheet: Sheet, input: EstimateInput, earlier?: Earlier): Subject {
  const paperwork = input.paperwork ?? {};
  const asked: Tongue = { locale: paperwork.locale ?? ENGLISH, currency: sheet.currency };
  const figures = `${money(sheet.totals.total, asked)} ${day(sheet.asOf, asked.locale)}`;
  const tongue = BEYOND_THE_FONTS.test(figures) ? { ...asked, locale: ENGLISH } : asked;
  const changes = earlier && { changes: changesSince(earlier, { sheet, input }) };
  return { sheet, input, paperwork, tongue, cash: (amount) => money(amount, tongue), ...changes };
}

export const unitName = ({ input }: Subject): string =>
  oneLine([input.unit.maker, input.unit.model].filter(Boolean).join(" ")) || "Unit";

/** 'J-2026-0001, revision 1', as far as it is known. */
export const numberOf = ({ paperwork: { number, revision } }: Subject): string =>
  [number && oneLine(number), revision === undefined ? undefined : `revision ${revision}`].filter(Boolean).join(", ");
