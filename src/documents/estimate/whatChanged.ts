import { same } from "../../estimating/agreement/canonical.js";
import type { ChangeList } from "../../estimating/agreement/changeList.js";
import { causesText, figureText, signedMoney, UNIT_DETAILS, unitDetailText } from "../../wording/change.js";
import { listed } from "../../wording/list.js";
import type { Block, Row } from "../layout/block.js";
import { changedOffers, changedRows, faultsSince } from "./changedRows.js";
import { type Changes, comparedName, earlierNameAndDay } from "./earlier.js";
import type { Subject } from "./subject.js";

/** What the owner should see before agreeing again: why the total differs, and every row that does, unless there is no room for them. */
export function whatChanged(subject: Subject, { rows = true } = {}): Block[] {
  const { changes, words } = subject;
  const texts = words.paperChanges;
  if (!changes) return [];
  const heading: Block = { is: "heading", text: texts.heading(comparedName(changes.earlier, words)) };
  const replaces = texts.replaces(earlierNameAndDay(changes.earlier, subject));
  const { list } = changes;
  if (!list) {
    const text = `${replaces}${texts.otherCurrency}`;
    return [heading, { is: "paragraph", text }];
  }
  const isLetter = (subject.paperwork.detail ?? "letter") === "letter";
  const marked = list.rows.length === 0 || isLetter ? "" : texts.marked;
  return [
    heading,
    { is: "paragraph", text: `${replaces}.${marked}`, leads: true },
    { is: "gap", height: 4 },
    ...byCause(list, changes, subject),
    ...faultsSince(list, subject),
    ...(rows ? [...changedRows(list, subject), ...changedOffers(list, subject)] : []),
    ...alsoChanged(list, changes, subject),
  ];
}

function byCause({ causes, sums: { total } }: ChangeList, { earlier }: Changes, { tongue, cash, words }: Subject): Block[] {
  const texts = words.paperChanges;
  const sum = (kind: "sum" | "total", label: string, amount: string): Row => ({
    kind,
    cells: [{ text: label }, { text: amount }],
  });
  const rows: Row[] = [
    ...causes.map(
      (cause): Row => ({ cells: [{ text: causesText(cause, tongue) }, { text: signedMoney(cause.amount, tongue) }] }),
    ),
    sum("sum", texts.difference, signedMoney(total.difference, tongue)),
    sum("sum", texts.totalOf(comparedName(earlier, words)), cash(total.before)),
    sum("total", texts.totalNow, cash(total.after)),
  ];
  const unexplained = causes.length === 0 && total.difference !== 0;
  return [
    {
      is: "table",
      columns: [
        { title: texts.whyTotalChanged, width: "rest" },
        { title: texts.taxIncluded, width: "fit", align: "right" },
      ],
      rows,
    },
    ...(unexplained
      ? [
          {
            is: "paragraph",
            small: true,
            text: texts.notSplit,
          } as const,
        ]
      : []),
  ];
}

/** The figures beside the total, and what is written about the unit and the terms. */
function alsoChanged({ figures, context }: ChangeList, { earlier }: Changes, { input, sheet, tongue, words }: Subject): Block[] {
  const texts = words.paperChanges;
  const paid = figures.some(({ figure }) => figure === "paid already") || sheet.totals.prepaid !== 0;
  const beside = figures
    .filter(({ figure }) => figure !== "total" && (figure !== "due" || paid))
    .map((change) => figureText(change, tongue, earlier.agreed));
  const { unit, paperwork } = earlier.input;
  const written = [
    ...(context.includes("unit")
      ? UNIT_DETAILS.filter((detail) => !same(unit[detail], input.unit[detail])).map((detail) => unitDetailText(detail, tongue))
      : []),
    ...(same(paperwork?.terms, input.paperwork?.terms) ? [] : [texts.theTerms]),
  ];
  const sentences = [
    ...(beside.length === 0 ? [] : [`${beside.join(". ")}.`]),
    ...(written.length === 0 ? [] : [texts.writtenAnew(listed(written, words.lists.and))]),
  ];
  const paragraphs = sentences.map((text): Block => ({ is: "paragraph", text }));
  return sentences.length === 0 ? [] : [{ is: "gap", height: 6 }, ...paragraphs];
}
