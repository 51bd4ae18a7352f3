/** One row as an object: each mapped cell read, empty ones left out. */
import type { Mapping } from "../../records/mappings.js";
import type { Field } from "./fields.js";
import type { CellFault } from "./report.js";
import type { TableRow } from "./table.js";

export interface RowRead {
  readonly value: Readonly<Record<string, unknown>>;
  readonly faults: readonly CellFault[];
}

export function readRow(row: TableRow, fields: readonly Field[], mapping: Mapping): RowRead {
  const value: Record<string, unknown> = {};
  const faults: CellFault[] = [];
  for (const { name, label, needed, read } of fields) {
    const column = mapping.fields[name];
    const text = column === undefined ? "" : row.cell(column);
    if (text.trim() === "") {
      if (needed) faults.push({ ...(column !== undefined && { column }), why: `${label} is missing` });
      continue;
    }
    const cell = read(text, mapping.mark);
    if ("why" in cell) faults.push({ column: column!, why: cell.why });
    else value[name] = cell.value;
  }
  return { value, faults };
}

/** A fault of a field, under the heading of its column. */
export const under = (mapping: Mapping, name: string, why: string): CellFault => {
  const column = mapping.fields[name];
  return { ...(column !== undefined && { column }), why };
};
