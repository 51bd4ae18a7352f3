/** A sheet as its owner sees it: what is charged and why, and nothing of what it cost the shop. */
import { strikeable } from "../../estimating/agreement/choices.js";
import type { EstimateInput } from "../../estimating/input.js";
import { ownAmounts } from "../../estimating/sheet/ownAmounts.js";
import { couldPass, isAboveOwners, neverMore } from "../../estimating/sheet/terms.js";
import type { GroupPrice, Line, Sheet } from "../../estimating/sheet.js";
import type { OwnerGroup, OwnerLine, OwnerSheet, OwnerWork } from "../../pages/owner/view.js";
import { billedText } from "../../wording/agreement.js";
import { english, type Words } from "../../wording/english/index.js";
import { money } from "../../wording/figures.js";
import { adjustmentTitle, headingSums, lineHeading, lineNote, lineTitle, notCountedText, workTitle } from "../../wording/line.js";
import type { Tongue } from "../../wording/tongue.js";

/** `fitted`: work whose parts are in place by now. */
export function ownerSheet(sheet: Sheet, input: EstimateInput, tongue: Tongue, fitted?: readonly string[]): OwnerSheet {
  const { paper, paperMeaning } = tongue.words ?? english;
  const { choices } = paper;
  const { linesNet, withoutTax, taxGroups, tax, total, prepaid, due, pricesIncludeTax } = sheet.totals;
  const notCounted = notCountedText(input, sheet, tongue.words ?? english, fitted);
  // One discount is spread over tax categories.
  const rates = (of: Sheet["adjustments"]) => [
    ...new Set(of.map(({ base: _, reason: __, ...rate }) => adjustmentTitle(rate, tongue))),
  ];
  const lines = sheet.lines.map((line) => ownerLine(line, input, tongue));
  return {
    lines,
    headings: headingSums(sheet.lines, tongue),
    adjustments: sheet.adjustments.map((adjustment) => ({
      id: adjustment.id,
      title: adjustmentTitle(adjustment, tongue),
      amount: adjustment.charge ? adjustment.amount : -adjustment.amount,
    })),
    more: rates(sheet.adjustments.filter(({ sort }) => sort === "rush" || sort === "sundries")),
    less: rates(sheet.adjustments.filter(({ sort, percent }) => sort === "discount" && percent !== undefined)),
    totals: {
      ...{ linesNet, withoutTax, tax, total, prepaid, due, pricesIncludeTax },
      taxGroups: taxGroups.map(({ name, percent, base, tax: amount }) => ({ name, percent, base, tax: amount })),
    },
    options: sheet.options.map((group) => ownerGroup(group, choices)),
    ifFound: sheet.ifFound.map((group) => ownerGroup(group, choices)),
    worthDoing: sheet.suggestions.map(({ assembly, operation, partType, count, reason, now, later }) => ({
      name: workTitle(
        {
          ...{ id: "", assembly: assembly.id, operation: operation.id, count, certainty: { is: "planned" } },
          ...(partType !== undefined && { part: { type: partType } }),
        },
        input,
      ),
      ...{ reason, now, later },
    })),
    ceiling: neverMore(sheet),
    billed: billedText(input, sheet, tongue),
    ...(isAboveOwners(sheet) && { raised: paperMeaning.aboveYourCeiling(money(sheet.ceiling.amount, tongue)) }),
    ...(couldPass(sheet) && { couldPass: choices.couldPass }),
    ifDeclined: sheet.ifDeclined.amount,
    deposit: sheet.deposit.amount,
    days: sheet.days.total,
    ...(notCounted && { notCounted }),
  };
}

function ownerLine(line: Line, input: EstimateInput, tongue: Tongue): OwnerLine {
  const note = lineNote(line, input, tongue);
  return {
    id: line.id,
    heading: lineHeading(line, tongue),
    title: lineTitle(line, tongue),
    ...(note !== undefined && { note }),
    ...(line.count !== undefined && { count: line.count }),
    amount: line.amount,
  };
}

const ownerGroup = (
  { id, names, reason, price, covered, chosen, refused, probability }: GroupPrice,
  { refused: leftOut }: Words["paper"]["choices"],
): OwnerGroup => ({
  id,
  names,
  price,
  ...(reason !== undefined && { reason }),
  ...(covered && { covered }),
  ...(chosen !== undefined && { chosen }),
  ...(refused !== undefined && !chosen && { refused: leftOut(refused) }),
  ...(probability !== undefined && { probability }),
});

/** Of the issued input, whole, with its own lines of the issued sheet. */
export function ownerWork(input: EstimateInput, sheet: Sheet): OwnerWork[] {
  const own = ownAmounts(sheet, input.items);
  return strikeable(input).map((item) => {
    const { certainty } = item;
    const ifFound = certainty.is === "if found";
    const group = ifFound ? sheet.ifFound.find(({ id }) => id === (certainty.group ?? item.id)) : undefined;
    const amount = ifFound ? (group?.names.length === 1 ? group.price : undefined) : own.get(item.id);
    return {
      ...{ id: item.id, title: workTitle(item, input), ifFound },
      ...(item.reason && { reason: item.reason }),
      ...(amount !== undefined && { amount }),
      ...(group?.covered && { covered: group.covered }),
    };
  });
}
