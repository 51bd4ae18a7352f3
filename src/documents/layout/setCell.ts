import type { Missing } from "../type/shape.js";
import type { Cell, RowMark } from "./block.js";
import { COLOUR } from "./colour.js";
import { setRuns } from "./setRuns.js";
import { type Align, setText, widthOf } from "./setText.js";
import { spaced } from "./spaced.js";
import { indent, type Mark, move, type Strip } from "./strip.js";
import { STYLE, type Style } from "./style.js";
import type { Tag } from "./tag.js";
import { tickBox } from "./tickBox.js";

const BOX_ROOM = 15;
/** Beside the space that ends the text. */
const NOTE_GAP = 5;

export function setCell(
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
