import type { Totals } from "../../estimating/sheet.js";
import { percent } from "../../wording/figures.js";
import { taxRoundingText } from "../../wording/reasons.js";
import { isUntaxed, whyUntaxed } from "../../wording/untaxed.js";
import type { Block, Row } from "../layout/block.js";
import type { Subject } from "./subject.js";

/** Tax by category, and the rule it is rounded by. */
export function taxTable({ sheet: { totals }, tongue, cash, words }: Subject): Block[] {
  if (totals.taxGroups.length === 0) return [];
  if (isUntaxed(totals)) return whyUntaxed(totals).map((why): Block => ({ is: "paragraph", small: true, text: `${why}.` }));
  const texts = words.paper.taxTable;
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
  const sum: Row = {
    kind: "sum",
    cells: [{ text: texts.together }, { text: cash(totals.withoutTax) }, { text: cash(totals.tax) }],
  };
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: totals.pricesIncludeTax ? texts.within : texts.tax },
        {
          is: "table",
          columns: [
            { title: texts.category, width: "rest" },
            { title: texts.rate, width: "fit", align: "right" },
            { title: texts.net, width: "fit", align: "right" },
            { title: texts.tax, width: "fit", align: "right" },
          ],
          rows: [...rows, sum],
        },
        { is: "paragraph", small: true, text: taxRoundingText(totals.rounding, tongue) },
      ],
    },
  ];
}

/** A letter for each tax category, when there is more than one to tell apart. */
export function taxLetters({ taxGroups }: Totals): ReadonlyMap<string, string> | undefined {
  if (taxGroups.length < 2) return undefined;
  return new Map(taxGroups.map(({ category }, index) => [category, letter(index)]));
}

/** A to Z, then AA, AB ... */
const letter = (index: number): string =>
  index < 26 ? String.fromCharCode(65 + index) : letter(Math.floor(index / 26) - 1) + letter(index % 26);
