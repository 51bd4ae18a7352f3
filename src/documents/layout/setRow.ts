import type { Missing } from "../type/shape.js";
import type { Column, Row, RowMark } from "./block.js";
import { COLOUR } from "./colour.js";
import type { Place } from "./columnWidths.js";
import { setCell } from "./setCell.js";
import { type Align, keepShort } from "./setText.js";
import { padded, ruled, tinted } from "./space.js";
import { beside, indent, type Strip } from "./strip.js";
import { STYLE } from "./style.js";
import type { Tag, TagFacts } from "./tag.js";

const HAIRLINE = 0.5;
const GROUP_SPACE = 6;
const TOTAL_SPACE = 3.5;
const TOTAL_BEYOND = 6;
const BAR = 1.8;
/** How far left of the table the bar of a marked row stands. */
const BAR_BEYOND = 9;

/** One row. With fewer cells than columns the first cell takes the columns that are left over. */
export function setRow(
  row: Row,
  columns: readonly Column[],
  places: readonly Place[],
  width: number,
  table: Tag,
  missing: Missing,
): Strip[] {
  const tag = table.add("TR");
  const sums = row.kind === "sum" || row.kind === "total";
  const style = row.kind === "total" ? STYLE.total : row.kind === "group" ? STYLE.strong : STYLE.body;
  const spanned = columns.length - row.cells.length;
  const cells = row.cells.map((cell, index) => {
    const at = index === 0 ? 0 : index + spanned;
    const { x } = places[at]!;
    const end = places[index + spanned]!;
    const align: Align = index === 0 && sums ? "right" : (columns[at]!.align ?? "left");
    const names = row.kind === "group" || (index === 0 && sums);
    const facts: TagFacts = { ...(names && { scope: "Row" }), ...(index === 0 && spanned > 0 && { span: spanned + 1 }) };
    return indent(
      setCell(
        cell,
        style,
        end.x + end.width - x,
        tag.add(names ? "TH" : "TD", facts),
        missing,
        align,
        index === 0 ? row.mark : undefined,
      ),
      x,
    );
  });
  const strips = barred(keepShort(beside(cells)), row.mark);
  if (row.kind === "total") return tinted(padded(strips, TOTAL_SPACE), width, TOTAL_BEYOND);
  if (row.kind === "sum") return padded(strips);
  return row.kind === "group" ? padded(strips, GROUP_SPACE) : ruled(strips, width, HAIRLINE, COLOUR.rule);
}

const barred = (strips: readonly Strip[], mark: RowMark | undefined): readonly Strip[] =>
  mark === undefined
    ? strips
    : strips.map((strip) => ({
        ...strip,
        marks: [
          ...strip.marks,
          {
            is: "fill",
            x: -BAR_BEYOND,
            y: -0.1,
            width: BAR,
            height: strip.height + 0.2,
            colour: mark.caution ? COLOUR.caution : COLOUR.accent,
          },
        ],
      }));
