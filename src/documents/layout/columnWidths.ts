import { Missing, shape } from "../type/shape.js";
import type { Column, Row } from "./block.js";
import { widthOf } from "./setText.js";
import { STYLE } from "./style.js";

export interface Place {
  readonly x: number;
  readonly width: number;
}

const BETWEEN = 12;
/** No fitted column takes more of the table than this; what is wider is wrapped. */
const LARGEST_SHARE = 0.3;

/** Where each column stands, in points from the left. */
export function columnsWithin(columns: readonly Column[], rows: readonly Row[], width: number): Place[] {
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
