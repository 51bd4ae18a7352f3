import type { Missing } from "../type/shape.js";
import type { Column, TableBlock } from "./block.js";
import { COLOUR } from "./colour.js";
import { columnsWithin, type Place } from "./columnWidths.js";
import { setRow } from "./setRow.js";
import { setText } from "./setText.js";
import { ruled } from "./space.js";
import { beside, indent, type Strip, together } from "./strip.js";
import { STYLE } from "./style.js";
import type { Tag } from "./tag.js";

const HEAD_RULE = 0.9;
const COLUMN = { scope: "Column" } as const;

/** A table whose head, and the name of the group at hand, are repeated on every page it reaches, and whose sums never leave the line above them. */
export function setTable({ columns, rows }: TableBlock, width: number, parent: Tag, missing: Missing): Strip[] {
  const table = parent.add("Table");
  const places = columnsWithin(columns, rows, width);
  const head = setHead(columns, places, width, table, missing);
  let group: readonly Strip[] = [];
  const body = rows.flatMap((row, index) => {
    const strips = setRow(row, columns, places, width, table, missing);
    const next = rows[index + 1]?.kind;
    const held = row.kind === "group" || next === "sum" || next === "total";
    const repeated = row.kind === undefined ? [...head, ...group] : head;
    if (row.kind !== undefined) group = row.kind === "group" ? strips : [];
    const last = strips.length - 1;
    return strips.map((strip, at) => ({ ...strip, head: repeated, keep: strip.keep || (held && at === last) }));
  });
  return [...head, ...body];
}

function setHead(columns: readonly Column[], places: readonly Place[], width: number, table: Tag, missing: Missing): Strip[] {
  const row = table.add("TR");
  const cells = columns.map(({ title, align }, index) => {
    const place = places[index]!;
    return indent(setText(title, STYLE.tableHead, place.width, row.add("TH", COLUMN), missing, align), place.x);
  });
  return together(ruled(beside(cells), width, HEAD_RULE, COLOUR.accent), true);
}
