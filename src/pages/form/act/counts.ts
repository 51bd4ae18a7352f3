/** The counts of the grid: cleared, filled by what is usual, or come from counted boards and from earlier jobs. */
import { type EarlierCount, isUsual, suggested } from "../../../estimating/closeout/earlierCounts.js";
import { LIMITS } from "../../../estimating/problems.js";
import { refineBoards } from "../../../estimating/teardown/refineBoards.js";
import { listedShort } from "../../../wording/list.js";
import { nameFor } from "../../../wording/named.js";
import { columnsOf, type FormContext, penFor } from "../context.js";
import { draftFrom, WHOLE_UNIT } from "../draft.js";
import { type Fields, key } from "../fields.js";
import { fieldsForMap } from "../fieldsFor.js";
import { assemblyRows, operationNames, typeNames } from "../names.js";
import { readForm } from "../readForm.js";
import { type Acted, addLine, take } from "./rows.js";

export const clearCounts = (fields: Fields): Acted =>
  take(fields, (name) => name.startsWith("cells.") || name.startsWith("cellIds."), "all counts of the grid");

/** Empty cells take the count the model usually has. */
export function takeUsualCounts(fields: Fields): Acted {
  const filled = new Map(fields);
  for (const [name, text] of fields) {
    if (!name.startsWith("usual.")) continue;
    const cell = `cells.${name.slice("usual.".length)}`;
    if (!filled.get(cell)?.trim()) filled.set(cell, text);
  }
  return { fields: filled, say: "Empty cells took the model's usual counts." };
}

/** Counted boards become rows of the grid; everything else stays as typed. */
export function refine(fields: Fields, context: FormContext): Acted {
  const { input, problems } = readForm(fields, context);
  const boards = input.boards ?? [];
  const sound = boards.every(({ count }) => Number.isInteger(count) && count > 0 && count <= LIMITS.boards);
  if (!sound || problems.some(({ field }) => field.startsWith("boards."))) {
    return { fields: new Map(fields), say: "Put the board counts right first; nothing was changed." };
  }
  if (boards.length === 0) return { fields: new Map(fields), say: "No boards are counted yet." };

  const known = new Set(input.map?.assemblies.map(({ id }) => id));
  const refined = refineBoards(input);
  const fresh = refined.map?.assemblies.filter(({ id }) => !known.has(id)) ?? [];
  const filled = new Map([...fields].filter(([name]) => !name.startsWith("boards.")));
  for (const [name, text] of fieldsForMap({ assemblies: fresh }, penFor(context))) if (text !== undefined) filled.set(name, text);
  for (const { id } of fresh) filled.set(`assembly.${key(id)}.wanted`, "on");
  const first = fresh[0] && `assembly.${key(fresh[0].id)}.name`;
  return {
    fields: filled,
    ...(first && { focus: first }),
    say: `${fresh.length} boards have a row each now. Name them, and move counts from the whole unit to where they belong.`,
  };
}

/**
 * Counts of earlier jobs of the model, where at least every second job had them and the form says nothing yet. Each one taken is
 * marked by a field `earlier.ROW.COLUMN` or `earlier.LINE.line`, so that the page can say what it rests on.
 */
export function takeEarlierCounts(fields: Fields, counts: readonly EarlierCount[], jobs: number, context: FormContext): Acted {
  let filled = new Map(fields);
  let taken = 0;
  const elsewhere = new Set<string>();
  for (const one of counts.filter(isUsual)) {
    const row = rowOf(filled, one.assembly);
    if (row === undefined) {
      elsewhere.add(one.assembly!);
      continue;
    }
    const column = columnOf(one, context);
    const before = filled;
    filled = column === undefined ? withLine(filled, one, context) : withCell(filled, one, row, column);
    if (filled !== before) taken += 1;
  }
  const from = jobs === 1 ? "the one earlier job" : `${jobs} earlier jobs`;
  const left = elsewhere.size > 0 ? ` Left out, because this unit has no such assembly: ${listedShort([...elsewhere])}.` : "";
  const said = taken === 0 ? `Nothing to take from ${from}: what is usual is counted already.` : "";
  // Of many at once no one is taken out again.
  filled.delete("meta.added");
  const otherwise = countedOtherwise(fields, counts, context);
  return {
    fields: filled,
    say: `${said || `${taken} counts were suggested from ${from}. They are listed below the grid; change what differs.`}${left}${otherwise && ` ${otherwise}`}`,
  };
}

/** Cells that say another count than earlier jobs usually had, with both figures; "" where none does. They stay as they are. */
export function countedOtherwise(fields: Fields, counts: readonly EarlierCount[], context: FormContext): string {
  const other = counts.filter(isUsual).flatMap((one) => {
    const [row, column] = [rowOf(fields, one.assembly), columnOf(one, context)];
    const cell = row !== undefined && column !== undefined && `${row}.${key(column)}`;
    const here = cell && !fields.has(`earlier.${cell}`) ? (fields.get(`cells.${cell}`)?.trim() ?? "") : "";
    if (here === "" || here === String(suggested(one))) return [];
    const what = columnsOf(context.rateBook).find(({ id }) => id === column)!.name;
    return [`${what}${one.assembly === undefined ? "" : `, ${one.assembly}`}: ${here} here, ${suggested(one)} there`];
  });
  return other.length === 0
    ? ""
    : `Earlier jobs of this model usually had other counts, and nothing was changed: ${other.join("; ")}.`;
}

function rowOf(fields: Fields, assembly: string | undefined): string | undefined {
  if (assembly === undefined) return WHOLE_UNIT;
  return assemblyRows(draftFrom(fields)).find(({ name }) => name.toLowerCase() === assembly.trim().toLowerCase())?.key;
}

/** The grid counts what is replaced, by part type, and what is cleaned. */
function columnOf({ operation, partType }: EarlierCount, { rateBook }: FormContext): string | undefined {
  const sort = rateBook.operations.find(({ id }) => id === operation)?.sort;
  if (sort === "replacement" && rateBook.partTypes.some(({ id }) => id === partType)) return `p:${partType}`;
  return sort === "cleaning" && partType === undefined ? `o:${operation}` : undefined;
}

const basis = (one: EarlierCount): string => [suggested(one), one.least, one.most, one.jobs, one.of].join(" ");

function withCell(fields: Map<string, string>, one: EarlierCount, row: string, column: string): Map<string, string> {
  const cell = `${row}.${key(column)}`;
  if (fields.get(`cells.${cell}`)?.trim() || suggested(one) < 1) return fields;
  return new Map(fields).set(`cells.${cell}`, String(suggested(one))).set(`earlier.${cell}`, basis(one));
}

function withLine(fields: Map<string, string>, one: EarlierCount, context: FormContext): Map<string, string> {
  if (!context.rateBook.operations.some(({ id }) => id === one.operation) || suggested(one) < 1) return fields;
  const operation = nameFor(one.operation, operationNames(context));
  const said = (text: string | undefined) => (text ?? "").trim().toLowerCase();
  const there = Object.values(draftFrom(fields).line).some(
    (line) => said(line.operation) === operation.toLowerCase() && said(line.assembly) === said(one.assembly),
  );
  if (there) return fields;
  const { fields: added, focus = "" } = addLine(fields, operation);
  const row = focus.split(".")[1]!;
  const line = added.set(`line.${row}.count`, String(suggested(one))).set(`earlier.${row}.line`, basis(one));
  if (one.assembly !== undefined) line.set(`line.${row}.assembly`, one.assembly);
  if (one.partType !== undefined) line.set(`line.${row}.part`, nameFor(one.partType, typeNames(context)));
  return line;
}
