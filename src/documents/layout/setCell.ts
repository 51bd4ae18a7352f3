import type { Missing } from "../type/shape.js";
import type { Cell } from "./block.js";
import { type Align, setText, widthOf } from "./setText.js";
import { indent, move, type Strip } from "./strip.js";
import { STYLE, type Style } from "./style.js";
import type { Tag } from "./tag.js";
import { tickBox } from "./tickBox.js";

const BOX_ROOM = 15;
const NOTE_GAP = 7;

export function setCell(cell: Cell, style: Style, width: number, tag: Tag, missing: Missing, align: Align = "left"): Strip[] {
  const inset = cell.box ? BOX_ROOM : 0;
  const room = width - inset;
  const strips = setText(cell.text, style, room, tag, missing, align);
  const all = cell.note ? withNote(strips, cell.note, room, tag, missing, align) : strips;
  return cell.box ? tickBox(indent(all, inset), cell.box, style) : all;
}

/** Puts the note beside the text where there is room, otherwise under it. */
function withNote(strips: Strip[], note: string, width: number, tag: Tag, missing: Missing, align: Align): Strip[] {
  const text = strips[0]!.marks[0];
  const notes = setText(note, STYLE.small, width, tag, missing, align);
  const written = notes[0]!.marks[0];
  const alone = strips.length === 1 && notes.length === 1 && align === "left";
  if (!alone || text?.is !== "text" || written?.is !== "text") return [...strips, ...notes];
  const reach = widthOf(text.glyphs, text.size) + NOTE_GAP;
  if (reach + widthOf(written.glyphs, written.size) > width) return [...strips, ...notes];
  move([written], reach, text.y - written.y);
  return [{ ...strips[0]!, marks: [text, written] }];
}
