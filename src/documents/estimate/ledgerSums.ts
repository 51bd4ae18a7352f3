import { adjustmentTitle } from "../../wording/line.js";
import type { Row } from "../layout/block.js";
import { markOf } from "./earlier.js";
import type { Subject } from "./subject.js";

type Letters = ReadonlyMap<string, string> | undefined;

/** A row of the sums; the category is printed where there is more than one. */
export const sumRow =
  ({ cash }: Subject, letters: Letters) =>
  (kind: "sum" | "total", label: string, amount: number, category?: string): Row => ({
    kind,
    cells: [{ text: label }, { text: cash(amount) }, ...(letters ? [{ text: (category && letters.get(category)) ?? "" }] : [])],
  });

/** From the lines to what is due, in the order of EN 16931: lines, allowances and charges, tax, total, prepaid. */
export function ledgerSums(subject: Subject, letters: Letters): Row[] {
  const { totals } = subject.sheet;
  const say = subject.words.paper.ledger;
  const row = sumRow(subject, letters);
  return [
    ...sumsToTotal(subject, letters),
    ...(totals.prepaid === 0 ? [] : [row("sum", say.paid, -totals.prepaid), row("total", say.stillToPay, totals.due)]),
  ];
}

/** `more` stands after the sheet's own allowances and charges. */
export function sumsToTotal(subject: Subject, letters: Letters, more: readonly Row[] = []): Row[] {
  const { sheet, tongue, words } = subject;
  const { totals, adjustments } = sheet;
  const say = words.paper.ledger;
  const row = sumRow(subject, letters);
  const adjusted = adjustments.map((adjustment) =>
    row(
      "sum",
      [adjustmentTitle(adjustment, tongue), markOf(subject, "adjustment", adjustment.id).mark?.text].filter(Boolean).join("  "),
      adjustment.charge ? adjustment.amount : -adjustment.amount,
      adjustment.taxCategory,
    ),
  );
  return [
    row("sum", say.sumOfLines, totals.linesNet),
    ...adjusted,
    ...more,
    ...(totals.pricesIncludeTax ? [] : [row("sum", say.withoutTax, totals.withoutTax), row("sum", say.taxBelow, totals.tax)]),
    row("total", say.total, totals.total),
  ];
}
