import { adjustmentTitle } from "../../wording/index.js";
import type { Row } from "../layout/block.js";
import { markOf } from "./earlier.js";
import type { Subject } from "./subject.js";

/** From the lines to what is due, in the order of EN 16931: lines, allowances and charges, tax, total, prepaid. */
export function ledgerSums({ sheet, tongue, cash, changes }: Subject, letters: ReadonlyMap<string, string> | undefined): Row[] {
  const { totals, adjustments } = sheet;
  const row = (kind: "sum" | "total", label: string, amount: number, category?: string): Row => ({
    kind,
    cells: [{ text: label }, { text: cash(amount) }, ...(letters ? [{ text: (category && letters.get(category)) ?? "" }] : [])],
  });
  const adjusted = adjustments.map((adjustment) =>
    row(
      "sum",
      [adjustmentTitle(adjustment, tongue), markOf(changes, "adjustment", adjustment.id).mark?.text].filter(Boolean).join("  "),
      adjustment.charge ? adjustment.amount : -adjustment.amount,
      adjustment.taxCategory,
    ),
  );
  return [
    row("sum", "Sum of the lines", totals.linesNet),
    ...adjusted,
    ...(totals.pricesIncludeTax
      ? []
      : [row("sum", "Without tax", totals.withoutTax), row("sum", "Tax, as in the table below", totals.tax)]),
    row("total", "Total, tax included", totals.total),
    ...(totals.prepaid === 0 ? [] : [row("sum", "Paid already", -totals.prepaid), row("total", "Still to pay", totals.due)]),
  ];
}
