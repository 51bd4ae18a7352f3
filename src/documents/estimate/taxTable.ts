import { percent, taxRoundingText } from "../../wording/index.js";
import type { Block, Row } from "../layout/block.js";
import type { Subject } from "./subject.js";
import { taxLetters } from "./taxLetters.js";

/** Tax by category, and the rule it is rounded by. */
export function taxTable({ sheet: { totals }, tongue, cash }: Subject): Block[] {
  if (totals.taxGroups.length === 0) return [];
  const letters = taxLetters(totals);
  const rows = totals.taxGroups.map(
    ({ category, name, percent: rate, base, tax }): Row => ({
      cells: [
        { text: letters ? `${letters.get(category)}  ${name}` : name },
        { text: percent(rate, tongue.locale) },
        { text: cash(base) },
        { text: cash(tax) },
      ],
    }),
  );
  const sum: Row = { kind: "sum", cells: [{ text: "Together" }, { text: cash(totals.withoutTax) }, { text: cash(totals.tax) }] };
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: totals.pricesIncludeTax ? "Tax within the prices" : "Tax" },
        {
          is: "table",
          columns: [
            { title: "Category", width: "rest" },
            { title: "Rate", width: "fit", align: "right" },
            { title: "Net", width: "fit", align: "right" },
            { title: "Tax", width: "fit", align: "right" },
          ],
          rows: [...rows, sum],
        },
        { is: "paragraph", small: true, text: taxRoundingText(totals.rounding) },
      ],
    },
  ];
}
