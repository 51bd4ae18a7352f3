import type { Line } from "../../estimating/sheet.js";
import { unitPrice } from "../../wording/figures.js";
import { adjustmentTitle, headingSums, lineHeading, lineNote, lineTitle } from "../../wording/line.js";
import { duration } from "../../wording/time.js";
import { isUntaxed } from "../../wording/untaxed.js";
import type { Block, Column, Row } from "../layout/block.js";
import { markOf } from "./earlier.js";
import type { Subject } from "./subject.js";
import { taxLetters } from "./taxTable.js";

/** Every line of the estimate under its heading, and the sums under the lines. The amounts add up to the total as printed. */
export function ledger(subject: Subject, sums: typeof ledgerSums = ledgerSums): Block[] {
  const { sheet, words } = subject;
  const texts = words.paper.ledger;
  const letters = taxLetters(sheet.totals);
  const rows: Row[] = [];
  for (const [title, lines] of byHeading(sheet.lines, subject)) {
    rows.push(
      { kind: "group", cells: [{ text: title }] },
      ...lines.map((line, index) => asRow(line, lines[index - 1], subject, letters)),
    );
  }
  const columns: Column[] = [
    { title: texts.item, width: "rest" },
    { title: texts.count, width: "fit", align: "right" },
    { title: texts.time, width: "fit", align: "right" },
    { title: texts.each, width: "fit", align: "right" },
    { title: texts.amount, width: "fit", align: "right" },
    ...(letters ? [{ title: texts.tax, width: "fit", align: "left" } as const] : []),
  ];
  return [
    { is: "heading", text: texts.workAndParts },
    { is: "table", columns, rows: [...rows, ...sums(subject, letters)] },
  ];
}

/** What each heading comes to, and the same sums. */
export function byAssembly(subject: Subject): Block[] {
  const texts = subject.words.paper.ledger;
  const rows = headingSums(subject.sheet.lines, subject.tongue).map(
    ({ heading, amount }): Row => ({ cells: [{ text: heading }, { text: subject.cash(amount) }] }),
  );
  return [
    { is: "heading", text: texts.workAndParts },
    {
      is: "table",
      columns: [
        { title: texts.item, width: "rest" },
        { title: texts.amount, width: "fit", align: "right" },
      ],
      rows: [...rows, ...ledgerSums(subject, undefined)],
    },
  ];
}

function asRow(line: Line, above: Line | undefined, subject: Subject, letters: ReadonlyMap<string, string> | undefined): Row {
  const { input, tongue, cash, words } = subject;
  const reason = lineNote(line, input, tongue);
  const note =
    reason && line.sort !== "part" && above && reason === lineNote(above, input, tongue) ? words.paper.ledger.asAbove : reason;
  return {
    ...markOf(subject, "line", line.id),
    cells: [
      { text: lineTitle(line, tongue), ...(note && { note }) },
      { text: line.count === undefined ? "" : String(line.count) },
      { text: line.minutes === undefined ? "" : duration(line.minutes, tongue.locale) },
      { text: line.unitPriceE4 === undefined ? "" : unitPrice(line.unitPriceE4, tongue) },
      { text: cash(line.amount) },
      ...(letters ? [{ text: letters.get(line.taxCategory) ?? "" }] : []),
    ],
  };
}

/** Lines under their headings, in print order. */
export function byHeading(lines: readonly Line[], { tongue }: Subject): Map<string, Line[]> {
  const groups = new Map<string, Line[]>();
  for (const line of lines) {
    const title = lineHeading(line, tongue);
    const group = groups.get(title);
    if (group) group.push(line);
    else groups.set(title, [line]);
  }
  return groups;
}

type Letters = ReadonlyMap<string, string> | undefined;

/** A row of the sums; the category is printed where there is more than one. */
export const sumRow =
  ({ cash }: Subject, letters: Letters) =>
  (kind: "sum" | "total", label: string, amount: number, category?: string): Row => ({
    kind,
    cells: [{ text: label }, { text: cash(amount) }, ...(letters ? [{ text: (category && letters.get(category)) ?? "" }] : [])],
  });

/** From the lines to what is due, in the order of EN 16931: lines, allowances and charges, tax, total, prepaid. */
function ledgerSums(subject: Subject, letters: Letters): Row[] {
  const { totals } = subject.sheet;
  const texts = subject.words.paper.ledger;
  const row = sumRow(subject, letters);
  return [
    ...sumsToTotal(subject, letters),
    ...(totals.prepaid === 0 ? [] : [row("sum", texts.paid, -totals.prepaid), row("total", texts.stillToPay, totals.due)]),
  ];
}

/** `more` stands after the sheet's own allowances and charges. */
export function sumsToTotal(subject: Subject, letters: Letters, more: readonly Row[] = []): Row[] {
  const { sheet, tongue, words } = subject;
  const { totals, adjustments } = sheet;
  const texts = words.paper.ledger;
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
    row("sum", texts.sumOfLines, totals.linesNet),
    ...adjusted,
    ...more,
    ...(totals.pricesIncludeTax || isUntaxed(totals)
      ? []
      : [row("sum", texts.withoutTax, totals.withoutTax), row("sum", texts.taxBelow, totals.tax)]),
    row("total", texts.total, totals.total),
  ];
}
