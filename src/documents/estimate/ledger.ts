import type { Line } from "../../estimating/sheet.js";
import { duration, lineHeading, lineNote, lineTitle, unitPrice } from "../../wording/index.js";
import type { Block, Column, Row } from "../layout/block.js";
import { markOf } from "./earlier.js";
import { ledgerSums } from "./ledgerSums.js";
import type { Subject } from "./subject.js";
import { taxLetters } from "./taxLetters.js";

/** Every line of the estimate under its heading, and the sums under the lines. The amounts add up to the total as printed. */
export function ledger(subject: Subject, sums: typeof ledgerSums = ledgerSums): Block[] {
  const { sheet } = subject;
  const letters = taxLetters(sheet.totals);
  const rows: Row[] = [];
  for (const [title, lines] of byHeading(sheet.lines)) {
    rows.push(
      { kind: "group", cells: [{ text: title }] },
      ...lines.map((line, index) => asRow(line, lines[index - 1], subject, letters)),
    );
  }
  const columns: Column[] = [
    { title: "Item", width: "rest" },
    { title: "Count", width: "fit", align: "right" },
    { title: "Time", width: "fit", align: "right" },
    { title: "Each", width: "fit", align: "right" },
    { title: "Amount", width: "fit", align: "right" },
    ...(letters ? [{ title: "Tax", width: "fit", align: "left" } as const] : []),
  ];
  return [
    { is: "heading", text: "Work and parts" },
    { is: "table", columns, rows: [...rows, ...sums(subject, letters)] },
  ];
}

function asRow(line: Line, above: Line | undefined, subject: Subject, letters: ReadonlyMap<string, string> | undefined): Row {
  const { input, tongue, cash, changes } = subject;
  const reason = lineNote(line, input, tongue);
  const note = reason && line.sort !== "part" && above && reason === lineNote(above, input, tongue) ? "as above" : reason;
  return {
    ...markOf(changes, "line", line.id),
    cells: [
      { text: lineTitle(line), ...(note && { note }) },
      { text: line.count === undefined ? "" : String(line.count) },
      { text: line.minutes === undefined ? "" : duration(line.minutes, tongue.locale) },
      { text: line.unitPriceE4 === undefined ? "" : unitPrice(line.unitPriceE4, tongue) },
      { text: cash(line.amount) },
      ...(letters ? [{ text: letters.get(line.taxCategory) ?? "" }] : []),
    ],
  };
}

/** Lines under their headings, in print order. */
function byHeading(lines: readonly Line[]): Map<string, Line[]> {
  const groups = new Map<string, Line[]>();
  for (const line of lines) {
    const title = lineHeading(line);
    const group = groups.get(title);
    if (group) group.push(line);
    else groups.set(title, [line]);
  }
  return groups;
}
