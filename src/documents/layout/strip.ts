import type { Colour } from "../paper/colour.js";
import type { Glyph } from "../type/typeface.js";
import type { Tag } from "./tag.js";

/** What is drawn. Points; x from the left margin, y down from the top of the strip (of the baseline, for text). */
export type Mark =
  | {
      readonly is: "text";
      readonly x: number;
      readonly y: number;
      readonly size: number;
      readonly colour: Colour;
      readonly glyphs: readonly Glyph[];
      readonly from: number;
      readonly to: number;
      readonly tag: Tag;
    }
  | (Box & { readonly is: "fill"; readonly tag?: Tag })
  | (Box & { readonly is: "frame"; readonly line: number });

interface Box {
  readonly x: number;
  readonly y: number;
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
}

export const gap = (height: number): Strip => ({ before: height, height: 0, keep: true, marks: [] });

/** Keeps strips on one page. */
export const together = (strips: readonly Strip[], andNext = false): Strip[] =>
  strips.map((strip, index) => ({ ...strip, keep: andNext || index < strips.length - 1 }));

/** Moves strips to the right. */
export const indent = (strips: readonly Strip[], by: number): Strip[] =>
  by === 0 ? [...strips] : strips.map((strip) => ({ ...strip, marks: strip.marks.map((mark) => ({ ...mark, x: mark.x + by })) }));

/** Columns higher than this, in points, may be broken over pages. */
const BREAKABLE_FROM = 360;

/** Sets columns side by side, each at its own pace; line by line where they are too high to stay on one page. */
export function abreast(columns: readonly (readonly Strip[])[]): Strip[] {
  const marks: Mark[] = [];
  let height = 0;
  for (const column of columns) {
    let top = 0;
    for (const strip of column) {
      top += strip.before;
      marks.push(...strip.marks.map((mark) => ({ ...mark, y: mark.y + top })));
      top += strip.height;
    }
    height = Math.max(height, top);
  }
  return height < BREAKABLE_FROM ? [{ before: 0, height, keep: false, marks }] : beside(columns);
}

/** Sets columns side by side, line by line: each strip is as high as the highest of its row. */
export function beside(columns: readonly (readonly Strip[])[]): Strip[] {
  const longest = Math.max(...columns.map((column) => column.length));
  return Array.from({ length: longest }, (_, index) => {
    const row = columns.flatMap((column) => column[index] ?? []);
    return {
      before: Math.max(...row.map((strip) => strip.before)),
      height: Math.max(...row.map((strip) => strip.height)),
      keep: row.some((strip) => strip.keep),
      marks: row.flatMap((strip) => strip.marks),
    };
  });
}
