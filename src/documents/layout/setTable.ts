import { Missing, shape } from "../type/shape.js";
import type { Column, Row, TableBlock } from "./block.js";
import { type Place, setRow } from "./setRow.js";
import { setText, widthOf } from "./setText.js";
import { ruled } from "./space.js";
import { beside, indent, type Strip, together } from "./strip.js";
import { COLOUR, STYLE } from "./style.js";
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

const BETWEEN = 12;
/** No fitted column takes more of the table than this; what is wider is wrapped. */
const LARGEST_SHARE = 0.3;

/** Where each column stands, in points from the left. */
function columnsWithin(columns: readonly Column[], rows: readonly Row[], width: number): Place[] {
  const fixed = columns.map((column, index) => fixedWidth(column, index, columns.length, rows, width));
  const taken = fixed.reduce<number>((sum, each) => sum + (each ?? 0), 0) + BETWEEN * (columns.length - 1);
  const shared = (width - taken) / Math.max(1, fixed.filter((each) => each === undefined).length);
  let x = 0;
  return fixed.map((each) => {
    const place = { x, width: each ?? shared };
    x += place.width + BETWEEN;
    return place;
  });
}

function fixedWidth(column: Column, index: number, count: number, rows: readonly Row[], width: number): number | undefined {
  if (column.width === "rest") return undefined;
  if (column.width !== "fit") return column.width;
  let widest = widthOf(shape(column.title, "bold", new Missing()), STYLE.tableHead.size);
  for (const row of rows) {
    const spanned = count - row.cells.length;
    const cell = row.cells[index - spanned];
    if (!cell || (spanned > 0 && index <= spanned)) continue;
    const { size, weight } = row.kind === "total" ? STYLE.total : STYLE.body;
    widest = Math.max(widest, widthOf(shape(cell.text, weight, new Missing()), size));
  }
  return Math.min(widest + 0.1, width * LARGEST_SHARE);
}
