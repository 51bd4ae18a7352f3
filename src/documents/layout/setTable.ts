import { COLOUR } from "../paper/colour.js";
import type { Missing } from "../type/shape.js";
import type { Cell, Column, Row, TableBlock } from "./block.js";
import { columnsWithin, type Place } from "./columnWidths.js";
import { keepShort, setText, widthOf } from "./setText.js";
import { beside, indent, type Mark, type Strip } from "./strip.js";
import { STYLE, type Style } from "./style.js";
import type { Tag } from "./tag.js";
import { tickBox } from "./tickBox.js";

const PADDING = 2.2;
const NOTE_GAP = 7;
const HAIRLINE = 0.5;

/** A table whose head is repeated on every page it reaches, and whose sums never leave the line above them. */
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
    if (row.kind === "group") group = strips;
    if (row.kind === "sum" || row.kind === "total") group = [];
    return strips.map((strip, at) => ({ ...strip, head: repeated, keep: strip.keep || (held && at === strips.length - 1) }));
  });
  return [...head, ...body];
}

function setHead(columns: readonly Column[], places: readonly Place[], width: number, table: Tag, missing: Missing): Strip[] {
  const row = table.add("TR");
  const cells = columns.map(({ title, align }, index) =>
    indent(setText(title, STYLE.tableHead, places[index]!.width, row.add("TH"), missing, align), places[index]!.x),
  );
  return ruled(beside(cells), width, 0.9, COLOUR.accent).map((strip) => ({ ...strip, keep: true }));
}

function setRow(
  row: Row,
  columns: readonly Column[],
  places: readonly Place[],
  width: number,
  table: Tag,
  missing: Missing,
): Strip[] {
  const tag = table.add("TR");
  const style = row.kind === "total" ? STYLE.total : row.kind === "group" ? STYLE.strong : STYLE.body;
  const spanned = columns.length - row.cells.length;
  const cells = row.cells.map((cell, index) => {
    const place = places[index === 0 ? 0 : index + spanned]!;
    const room = index === 0 && spanned > 0 ? places[spanned]!.x + places[spanned]!.width - place.x : place.width;
    const align =
      index === 0 && (row.kind === "sum" || row.kind === "total") ? "right" : columns[index + (index === 0 ? 0 : spanned)]!.align;
    return indent(setCell(cell, style, room, tag.add(row.kind === "group" ? "TH" : "TD"), missing, align), place.x);
  });
  const strips = keepShort(beside(cells));
  if (row.kind === "total") return tinted(strips, width);
  if (row.kind === "sum") return padded(strips, PADDING);
  return row.kind === "group" ? padded(strips, 6) : ruled(strips, width, HAIRLINE, COLOUR.rule);
}

function setCell(cell: Cell, style: Style, width: number, tag: Tag, missing: Missing, align?: "left" | "right"): Strip[] {
  const inset = cell.box ? 15 : 0;
  const strips = setText(cell.text, style, width - inset, tag, missing, align);
  if (cell.note) addNote(strips, cell.note, width - inset, tag, missing, align);
  return cell.box ? tickBox(indent(strips, inset), cell.box, style) : strips;
}

/** Beside the text where there is room, otherwise under it. */
function addNote(strips: Strip[], note: string, width: number, tag: Tag, missing: Missing, align?: "left" | "right"): void {
  const only = strips.length === 1 ? strips[0]! : undefined;
  const text = only?.marks[0];
  if (only && text?.is === "text" && align !== "right") {
    const reach = widthOf(text.glyphs, text.size) + NOTE_GAP;
    const [line, ...more] = setText(note, STYLE.small, Math.max(1, width - reach), tag, missing);
    if (line && more.length === 0) {
      const marks = line.marks.map((mark) => ({ ...mark, x: mark.x + reach, y: text.y }));
      strips[0] = { ...only, marks: [...only.marks, ...marks] };
      return;
    }
  }
  strips.push(...setText(note, STYLE.small, width, tag, missing, align));
}

/** Space above and below, and a line under the last strip. */
function ruled(
  strips: readonly Strip[],
  width: number,
  thickness: number,
  colour: (typeof COLOUR)[keyof typeof COLOUR],
): Strip[] {
  const spaced = padded(strips, PADDING);
  const last = spaced.at(-1)!;
  const rule: Mark = { is: "fill", x: 0, y: last.height - thickness, width, height: thickness, colour };
  return [...spaced.slice(0, -1), { ...last, marks: [...last.marks, rule] }];
}

function tinted(strips: readonly Strip[], width: number): Strip[] {
  return padded(strips, PADDING + 1).map((strip) => ({
    ...strip,
    marks: [{ is: "fill", x: -6, y: 0, width: width + 12, height: strip.height, colour: COLOUR.tint }, ...strip.marks],
  }));
}

function padded(strips: readonly Strip[], above: number): Strip[] {
  const [first, ...rest] = strips;
  const lowered = {
    ...first!,
    height: first!.height + above,
    marks: first!.marks.map((mark) => ({ ...mark, y: mark.y + above })),
  };
  const all = [lowered, ...rest];
  const last = all.at(-1)!;
  return [...all.slice(0, -1), { ...last, height: last.height + PADDING }];
}
