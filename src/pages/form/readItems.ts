/** Work items: the cells of the grid, row by row, then the lines. */

import { replacementIn } from "../../estimating/book.js";
import type { Certainty, OriginalPart, WorkItem } from "../../estimating/input.js";
import { CERTAINTIES } from "../../estimating/lists.js";
import { columnsOf } from "./context.js";
import { type Draft, type LineDraft, WHOLE_UNIT } from "./draft.js";
import { given, idOf, key } from "./fields.js";
import { type AssemblyRow, assemblyRows, named, typeNames } from "./names.js";
import { isPart, readMinutes, readPart, readWork } from "./ownWords.js";
import { choice, count, LENGTHS, line, number, type Reading } from "./reading.js";

export function readItems(at: Reading, draft: Draft): readonly WorkItem[] {
  const rows = assemblyRows(draft);
  const items: WorkItem[] = [];
  const push = (item: WorkItem, field: string) => {
    at.where.set(`/items/${items.length}`, field);
    items.push(item);
  };
  for (const row of [...rows.map((row) => row.key), WHOLE_UNIT]) readRow(at, draft, row, push);
  for (const [lineKey, mine] of Object.entries(draft.line)) {
    const pointer = `/items/${items.length}`;
    const item = readLine(at, lineKey, mine, rows);
    if (!item) continue;
    push(item, `line.${lineKey}.${item.service === undefined ? "count" : "operation"}`);
    for (const [end, name] of LINE_FIELDS) at.where.set(`${pointer}/${end}`, `line.${lineKey}.${name}`);
  }
  return items;
}

const LINE_FIELDS = [
  ["assembly", "assembly"],
  ["operation", "operation"],
  ["part", "part"],
  ["certainty", "certainty"],
  ["certainty/probability", "probability"],
  ["minutes", "likely"],
  ["own", "operation"],
  ["own/minutes", "likely"],
  ["own/price", "price"],
  ["own/labourClass", "labour"],
  ["service", "operation"],
  ["partPrice", "cost"],
  ["partPrice/reason", "why"],
  ["partPrice/source", "source"],
  ["partPrice/leadDays", "days"],
  ["part/own/cost", "cost"],
  ["part/own/type", "like"],
  ["part/own/source", "source"],
  ["part/own/leadDays", "days"],
  ["part/own/packSize", "pack"],
  ["part/own/minimumPacks", "minPacks"],
  ["part/own/shareGood", "good"],
  ["original", "originalValue"],
] as const;

function readRow(at: Reading, draft: Draft, row: string, push: (item: WorkItem, field: string) => void): void {
  for (const column of columnsOf(at.context.rateBook)) {
    const field = `cells.${row}.${key(column.id)}`;
    const counted = count(at, field, draft.cells[row]?.[key(column.id)]);
    if (counted === undefined || counted === 0) continue;
    const id = column.id.slice(2);
    push(
      given({
        id: draft.cellIds[row]?.[key(column.id)] || cellId(row, column.id),
        assembly: row === WHOLE_UNIT ? undefined : idOf(row),
        operation: column.id.startsWith("p:") ? replacementIn(at.context.rateBook, { type: id }) : id,
        count: counted,
        part: column.id.startsWith("p:") ? { type: id } : undefined,
        certainty: { is: "planned" } as const,
      }),
      field,
    );
  }
}

/** The id of the item that a cell of the grid makes. */
export const cellId = (row: string, column: string): string => `${row === WHOLE_UNIT ? "unit" : idOf(row)}/${column}`;

const lineSaysNothing = ({ operation, part, assembly, reason }: LineDraft): boolean =>
  [operation, part, assembly, reason].every((text) => !text?.trim());

/** A part without an operation is replaced. */
function readLine(at: Reading, lineKey: string, typed: LineDraft, rows: readonly AssemblyRow[]): WorkItem | undefined {
  if (lineSaysNothing(typed)) return undefined;
  const field = `line.${lineKey}`;
  const mine = isPart(typed, at.context) ? { ...typed, operation: "", part: typed.operation! } : typed;
  const { rateBook, kinds } = at.context;
  const work = readWork(at, field, mine);
  const taken = readPart(at, field, mine);
  const done =
    work ?? (taken?.part && !mine.operation?.trim() ? { operation: replacementIn(rateBook, taken.part, kinds) } : undefined);
  const assembly = named(at, `${field}.assembly`, mine.assembly, rows);
  const counted = count(at, `${field}.count`, mine.count);
  const certainty = readCertainty(at, field, mine);
  const reason = line(at, `${field}.reason`, mine.reason, LENGTHS.note);
  const minutes = done && "own" in done ? undefined : readMinutes(at, field, mine);
  const original = readOriginal(at, field, mine);
  if (!mine.operation?.trim() && !mine.part?.trim()) at.problems.push({ name: "missing", field: `${field}.operation` });
  if (mine.keep && work && !work.own && !(taken?.part && "own" in taken.part))
    at.problems.push({ name: "not of this", field: `${field}.keep`, of: "kept" });
  if (!mine.count?.trim()) at.problems.push({ name: "missing", field: `${field}.count` });
  if (!done || !taken || counted === undefined || certainty === undefined) return undefined;
  if (mine.assembly?.trim() && assembly === undefined) return undefined;
  return given({ id: idOf(lineKey), assembly, ...done, count: counted, ...taken, certainty, reason, minutes, original });
}

function readCertainty(at: Reading, field: string, mine: LineDraft): Certainty | undefined {
  const is = choice(at, `${field}.certainty`, mine.certainty, CERTAINTIES) ?? "planned";
  if (is === "planned") return { is };
  const group = line(at, `${field}.group`, mine.group, LENGTHS.id);
  // Nobody types it: it stays as it was while the work stays an option.
  const refused = Number(mine.refused) || undefined;
  if (is === "optional") return given({ is, chosen: Boolean(mine.chosen), group, refused });
  const probability = number(at, `${field}.probability`, mine.probability, 10, -2);
  if (!mine.probability?.trim()) at.problems.push({ name: "missing", field: `${field}.probability` });
  return probability === undefined ? undefined : given({ is, probability, group });
}

function readOriginal(at: Reading, field: string, mine: LineDraft): OriginalPart | undefined {
  const original = given({
    type: named(at, `${field}.originalType`, mine.originalType, typeNames(at.context)),
    value: line(at, `${field}.originalValue`, mine.originalValue),
    ratedVolts: number(at, `${field}.originalVolts`, mine.originalVolts, 6),
    workingVolts: number(at, `${field}.workingVolts`, mine.workingVolts, 6),
    tolerancePercent: number(at, `${field}.tolerance`, mine.tolerance, 4),
    audioGrade: mine.audio === "yes" ? true : mine.audio === "no" ? false : undefined,
  });
  return Object.keys(original).length > 0 ? original : undefined;
}
