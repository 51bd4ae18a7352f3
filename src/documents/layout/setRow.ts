import type { Missing } from "../type/shape.js";
import type { Cell, Column, Row, RowMark } from "./block.js";
import { tickBox } from "./setBlanks.js";
import { type Align, keepShort, setRuns, setText, widthOf } from "./setText.js";
import { padded, ruled, spaced, tinted } from "./space.js";
import { beside, indent, type Mark, move, type Strip } from "./strip.js";
import { COLOUR, STYLE, type Style } from "./style.js";
import type { Tag, TagFacts } from "./tag.js";

/** Where a column stands, in points from the left. */
export interface Place {
  readonly x: number;
  readonly width: number;
}

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

const BOX_ROOM = 15;
/** Beside the space that ends the text. */
const NOTE_GAP = 5;

function setCell(
  cell: Cell,
  style: Style,
  width: number,
  tag: Tag,
  missing: Missing,
  align: Align = "left",
  mark?: RowMark,
): Strip[] {
  const inset = cell.box ? BOX_ROOM : 0;
  const room = width - inset;
  const text = setText(cell.text, style, room, tag, missing, align);
  const notes = mark ? marked(mark, cell.note, room, tag, missing) : plain(cell.note, room, tag, missing, align);
  const strips = notes.length > 0 ? spaced(text, style) : text;
  const all = align === "left" ? withNote(strips, notes, room) : [...strips, ...notes];
  return cell.box ? tickBox(indent(all, inset), cell.box, style) : all;
}

const plain = (note: string | undefined, width: number, tag: Tag, missing: Missing, align: Align): Strip[] =>
  note ? setText(note, STYLE.small, width, tag, missing, align) : [];

function marked({ text, caution }: RowMark, note: string | undefined, width: number, tag: Tag, missing: Missing): Strip[] {
  const style = { ...STYLE.small, weight: "bold", colour: caution ? COLOUR.caution : COLOUR.accent } as const;
  return setRuns(
    [
      { text: note ? `${text}  ` : text, style, tag },
      { text: note ?? "", style: STYLE.small, tag },
    ],
    width,
    missing,
  );
}

/** Puts the note beside the text where there is room, otherwise under it. */
function withNote(strips: Strip[], notes: Strip[], width: number): Strip[] {
  const [text] = strips[0]!.marks;
  const [first, ...more] = notes;
  const start = first?.marks[0];
  if (strips.length > 1 || more.length > 0 || !first || text?.is !== "text" || start?.is !== "text") return [...strips, ...notes];
  const reach = endOf(text) + NOTE_GAP;
  if (reach + Math.max(...first.marks.map(endOf)) > width) return [...strips, ...notes];
  move(first.marks, reach, text.y - start.y);
  return [{ ...strips[0]!, marks: [text, ...first.marks] }];
}

const endOf = (mark: Mark): number =>
  mark.is === "text" ? mark.x + widthOf(mark.glyphs.slice(mark.from, mark.to), mark.size) : mark.x;
