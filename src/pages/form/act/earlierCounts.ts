/**
 * Counts of earlier jobs of the model, where at least every second job had them and the form says nothing yet. Each one taken is
 * marked by a field `earlier.ROW.COLUMN` or `earlier.LINE.line`, so that the page can say what it rests on.
 */
import { type EarlierCount, isUsual, suggested } from "../../../estimating/closeout/earlierCounts.js";
import { listedShort } from "../../../wording/list.js";
import type { FormContext } from "../context.js";
import { draftFrom, WHOLE_UNIT } from "../draft.js";
import { type Fields, key } from "../fields.js";
import { nameFor } from "../named.js";
import { assemblyRows, operationNames, typeNames } from "../names.js";
import type { Acted } from "./act.js";
import { addLine } from "./add.js";

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
  return {
    fields: filled,
    say: `${said || `${taken} counts were suggested from ${from}. They are listed below the grid; change what differs.`}${left}`,
  };
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
