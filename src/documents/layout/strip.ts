import type { Glyph } from "../type/typeface.js";
import type { Colour } from "./style.js";
import type { Tag } from "./tag.js";

/** What is drawn. Points; x from the left margin, y down from the top of the strip (of the baseline, for text). */
export type Mark =
  | TextMark
  | (Box & { readonly is: "fill"; readonly tag?: Tag })
  | (Box & { readonly is: "frame"; readonly line: number })
  | PathMark
  | PictureMark
  | LinkMark;

interface TextMark {
  readonly is: "text";
  x: number;
  y: number;
  readonly size: number;
  readonly colour: Colour;
  readonly glyphs: readonly Glyph[];
  readonly from: number;
  readonly to: number;
  readonly tag: Tag;
}

/** A line through points that are given from its own x and y. */
export interface PathMark {
  readonly is: "path";
  x: number;
  y: number;
  readonly points: readonly (readonly [x: number, y: number])[];
  readonly line: number;
  readonly dashed?: boolean;
  readonly colour: Colour;
  readonly tag?: Tag;
}

interface PictureMark {
  readonly is: "picture";
  x: number;
  y: number;
  readonly width: number;
  readonly height: number;
  /** Id of one of the document's pictures. */
  readonly picture: string;
  readonly turn?: number | undefined;
  readonly tag: Tag;
}

/** Draws nothing: makes a place on the page lead to a web address. */
export interface LinkMark {
  readonly is: "link";
  x: number;
  y: number;
  readonly width: number;
  readonly height: number;
  readonly to: string;
  readonly tag: Tag;
}

interface Box {
  x: number;
  y: number;
  readonly width: number;
  readonly height: number;
  readonly colour: Colour;
}

/** The unit of page breaking: a strip across the page that is never cut. */
export interface Strip {
  /** Space above, left out at the top of a page. */
  readonly before: number;
  readonly height: number;
  /** Not to be parted from the strip that follows, as long as a page can hold both. */
  readonly keep: boolean;
  readonly marks: readonly Mark[];
  /** Printed again above this strip when a page starts with it. */
  readonly head?: readonly Strip[];
  /** Starts a page. */
  readonly turn?: boolean;
}

export const gap = (height: number): Strip => ({ before: height, height: 0, keep: true, marks: [] });
export const blank = (height: number): Strip => ({ before: 0, height, keep: true, marks: [] });

/** Keeps strips on one page. */
export const together = (strips: readonly Strip[], andNext = false): Strip[] =>
  strips.map((strip, index) => ({ ...strip, keep: andNext || index < strips.length - 1 }));

/** Moves freshly set marks where they belong. In place: a setter owns what it has set. */
export function move(marks: readonly Mark[], right: number, down: number): void {
  for (const mark of marks) {
    mark.x += right;
    mark.y += down;
  }
}

/** Moves freshly set strips to the right. */
export function indent<S extends readonly Strip[]>(strips: S, by: number): S {
  for (const { marks } of strips) move(marks, by, 0);
  return strips;
}

/** Columns higher than this, in points, may be broken over pages. */
const BREAKABLE_FROM = 360;

/** Sets columns side by side, each at its own pace; line by line where they are too high to stay on one page. */
export function abreast(columns: readonly (readonly Strip[])[]): Strip[] {
  const heights = columns.map((column) => column.reduce((sum, strip) => sum + strip.before + strip.height, 0));
  const height = Math.max(...heights);
  if (height >= BREAKABLE_FROM) return beside(columns);
  for (const column of columns) {
    let top = 0;
    for (const strip of column) {
      top += strip.before;
      move(strip.marks, 0, top);
      top += strip.height;
    }
  }
  return [{ before: 0, height, keep: false, marks: columns.flatMap((column) => column.flatMap(({ marks }) => marks)) }];
}

/** Sets columns side by side, line by line: each strip is as high as the highest of its row. */
export function beside(columns: readonly (readonly Strip[])[]): Strip[] {
  const rows: Strip[] = [];
  for (let index = 0; columns.some((column) => index < column.length); index += 1) {
    const row = { before: 0, height: 0, keep: false, marks: [] as Mark[] };
    for (const column of columns) {
      const strip = column[index];
      if (!strip) continue;
      row.before = Math.max(row.before, strip.before);
      row.height = Math.max(row.height, strip.height);
      row.keep ||= strip.keep;
      row.marks.push(...strip.marks);
    }
    rows.push(row);
  }
  return rows;
}
