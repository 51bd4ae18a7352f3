/** Work items as cells of the grid where a cell says all there is to say, else as lines. */

import { replacementIn } from "../../estimating/book.js";
import type { EstimateInput, WorkItem } from "../../estimating/input.js";
import { nameFor } from "../../wording/named.js";
import { columnsOf, type Pairs, type Pen } from "./context.js";
import { WHOLE_UNIT } from "./draft.js";
import { key } from "./fields.js";
import { typeNames } from "./names.js";
import { fieldsForPart, fieldsForWork } from "./ownWords.js";
import { cellId } from "./readItems.js";

export function fieldsForItems(input: EstimateInput, pen: Pen): Pairs {
  const columns = new Set(columnsOf(pen.context.rateBook).map(({ id }) => id));
  const taken = new Set<string>();
  return input.items.flatMap((item): Pairs => {
    const column = columnOf(item, pen);
    const row = item.assembly === undefined ? WHOLE_UNIT : key(item.assembly);
    const cell = `${row}.${key(column ?? "")}`;
    if (column === undefined || !columns.has(column) || taken.has(cell)) return fieldsForLine(item, input, pen);
    taken.add(cell);
    return [
      [`cells.${cell}`, pen.number(item.count)],
      [`cellIds.${cell}`, item.id === cellId(row, column) ? undefined : item.id],
    ];
  });
}

/** The column an item would stand in, were it a plain planned count. */
function columnOf(item: WorkItem, { context }: Pen): string | undefined {
  const plain = item.certainty.is === "planned" && item.count !== 0 && !item.reason && !item.minutes && !item.original;
  if (!plain || item.operation === undefined || item.partPrice) return undefined;
  if (!item.part) return `o:${item.operation}`;
  return "type" in item.part && item.operation === replacementIn(context.rateBook, item.part) ? `p:${item.part.type}` : undefined;
}

function fieldsForLine(item: WorkItem, { map }: EstimateInput, pen: Pen): Pairs {
  const { context, number } = pen;
  const field = `line.${key(item.id)}`;
  const { certainty, original } = item;
  return [
    ...fieldsForWork(field, item, pen),
    [`${field}.assembly`, item.assembly === undefined ? undefined : nameFor(item.assembly, map?.assemblies ?? [])],
    ...fieldsForPart(field, item, pen),
    [`${field}.count`, number(item.count)],
    [`${field}.certainty`, certainty.is],
    [`${field}.probability`, certainty.is === "if found" ? number(certainty.probability, 2) : undefined],
    [`${field}.chosen`, certainty.is === "optional" && certainty.chosen ? "on" : undefined],
    [`${field}.refused`, certainty.is === "optional" ? number(certainty.refused) : undefined],
    [`${field}.group`, certainty.is === "planned" ? undefined : certainty.group],
    [`${field}.reason`, item.reason?.replace(/\s*[\r\n]+\s*/g, " ")],
    [`${field}.originalType`, original?.type === undefined ? undefined : nameFor(original.type, typeNames(context))],
    [`${field}.originalValue`, original?.value],
    [`${field}.originalVolts`, number(original?.ratedVolts)],
    [`${field}.workingVolts`, number(original?.workingVolts)],
    [`${field}.tolerance`, number(original?.tolerancePercent)],
    [`${field}.audio`, original?.audioGrade === undefined ? undefined : original.audioGrade ? "yes" : "no"],
  ];
}
