import { same } from "../../estimating/agreement/canonical.js";
import type { ChangeList } from "../../estimating/agreement/changeList.js";
import { causesText, figureText, listed, signedMoney, UNIT_DETAILS, unitDetailText } from "../../wording/index.js";
import type { Block, Row } from "../layout/block.js";
import { changedOffers, changedRows } from "./changedRows.js";
import { type Changes, earlierName, earlierNameAndDay } from "./earlier.js";
import type { Subject } from "./subject.js";

/** What the owner should see before agreeing again: why the total differs, and every row that does. */
export function whatChanged(subject: Subject): Block[] {
  const { changes, tongue } = subject;
  if (!changes) return [];
  const heading: Block = { is: "heading", text: `What changed since ${earlierName(changes.earlier)}` };
  const replaces = `This estimate replaces ${earlierNameAndDay(changes.earlier, tongue)}`;
  const { list } = changes;
  if (!list) {
    const text = `${replaces}, which was in another currency; the two are not compared.`;
    return [heading, { is: "paragraph", text }];
  }
  const marked =
    list.rows.length === 0 ? "" : " From 'Work and parts' on, every row that changed has a bar at the edge and a word beside it.";
  return [
    heading,
    { is: "paragraph", text: `${replaces}.${marked}`, leads: true },
    { is: "gap", height: 4 },
    ...byCause(list, changes, subject),
    ...changedRows(list, subject),
    ...changedOffers(list, subject),
    ...alsoChanged(list, changes, subject),
  ];
}

function byCause({ causes, sums: { total } }: ChangeList, { earlier }: Changes, { tongue, cash }: Subject): Block[] {
  const sum = (kind: "sum" | "total", label: string, amount: string): Row => ({
    kind,
    cells: [{ text: label }, { text: amount }],
  });
  const rows: Row[] = [
    ...causes.map((cause): Row => ({ cells: [{ text: causesText(cause) }, { text: signedMoney(cause.amount, tongue) }] })),
    sum("sum", "Difference", signedMoney(total.difference, tongue)),
    sum("sum", `Total of ${earlierName(earlier)}`, cash(total.before)),
    sum("total", "Total now, tax included", cash(total.after)),
  ];
  const unexplained = causes.length === 0 && total.difference !== 0;
  return [
    {
      is: "table",
      columns: [
        { title: "Why the total changed", width: "rest" },
        { title: "Tax included", width: "fit", align: "right" },
      ],
      rows,
    },
    ...(unexplained
      ? [
          {
            is: "paragraph",
            small: true,
            text: "Prices are worked out in another way since, so the difference is not split by cause.",
          } as const,
        ]
      : []),
  ];
}

/** The figures beside the total, and what is written about the unit and the terms. */
function alsoChanged({ figures, context }: ChangeList, { earlier }: Changes, { input, sheet, tongue }: Subject): Block[] {
  const paid = figures.some(({ figure }) => figure === "paid already") || sheet.totals.prepaid !== 0;
  const beside = figures
    .filter(({ figure }) => figure !== "total" && (figure !== "due" || paid))
    .map((change) => figureText(change, tongue));
  const { unit, paperwork } = earlier.input;
  const written = [
    ...(context.includes("unit")
      ? UNIT_DETAILS.filter((detail) => !same(unit[detail], input.unit[detail])).map(unitDetailText)
      : []),
    ...(same(paperwork?.terms, input.paperwork?.terms) ? [] : ["the terms"]),
  ];
  const texts = [
    ...(beside.length === 0 ? [] : [`${beside.join(". ")}.`]),
    ...(written.length === 0 ? [] : [`Written anew: ${listed(written)}.`]),
  ];
  const paragraphs = texts.map((text): Block => ({ is: "paragraph", text }));
  return texts.length === 0 ? [] : [{ is: "gap", height: 6 }, ...paragraphs];
}
