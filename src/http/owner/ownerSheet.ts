/** A sheet as its owner sees it: what is charged and why, and nothing of what it cost the shop. */
import { strikeable } from "../../estimating/agreement/choices.js";
import type { EstimateInput } from "../../estimating/input.js";
import type { GroupPrice, Line, Sheet } from "../../estimating/sheet.js";
import type { OwnerGroup, OwnerLine, OwnerSheet, OwnerWork } from "../../pages/owner/view.js";
import { adjustmentTitle, lineHeading, lineNote, lineTitle, workTitle } from "../../wording/line.js";
import type { Tongue } from "../../wording/tongue.js";

export function ownerSheet(sheet: Sheet, input: EstimateInput, tongue: Tongue): OwnerSheet {
  const { linesNet, withoutTax, taxGroups, tax, total, prepaid, due, pricesIncludeTax } = sheet.totals;
  return {
    lines: sheet.lines.map((line) => ownerLine(line, input, tongue)),
    adjustments: sheet.adjustments.map((adjustment) => ({
      id: adjustment.id,
      title: adjustmentTitle(adjustment, tongue),
      amount: adjustment.charge ? adjustment.amount : -adjustment.amount,
    })),
    totals: {
      ...{ linesNet, withoutTax, tax, total, prepaid, due, pricesIncludeTax },
      taxGroups: taxGroups.map(({ name, percent, base, tax: amount }) => ({ name, percent, base, tax: amount })),
    },
    options: sheet.options.map(ownerGroup),
    ifFound: sheet.ifFound.map(ownerGroup),
    ceiling: sheet.ceiling.amount,
    ifDeclined: sheet.ifDeclined.amount,
    deposit: sheet.deposit.amount,
    days: sheet.days.total,
  };
}

function ownerLine(line: Line, input: EstimateInput, tongue: Tongue): OwnerLine {
  const note = lineNote(line, input, tongue);
  return {
    id: line.id,
    heading: lineHeading(line),
    title: lineTitle(line),
    ...(note !== undefined && { note }),
    ...(line.count !== undefined && { count: line.count }),
    amount: line.amount,
  };
}

const ownerGroup = ({ id, names, reason, price, chosen, probability }: GroupPrice): OwnerGroup => ({
  id,
  names,
  price,
  ...(reason !== undefined && { reason }),
  ...(chosen !== undefined && { chosen }),
  ...(probability !== undefined && { probability }),
});

/** Of the issued input, whole. */
export const ownerWork = (input: EstimateInput): OwnerWork[] =>
  strikeable(input).map((item) => ({ id: item.id, title: workTitle(item, input), ifFound: item.certainty.is === "if found" }));
