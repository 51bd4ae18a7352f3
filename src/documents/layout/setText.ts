import { advanceOf, linesOf, type Missing, shape } from "../type/shape.js";
import type { Glyph } from "../type/typeface.js";
import { wrap } from "../type/wrap.js";
import { spaced } from "./spaced.js";
import type { Mark, Strip } from "./strip.js";
import type { Style } from "./style.js";
import type { Tag } from "./tag.js";

export type Align = "left" | "right";

/** A paragraph of more lines than this may be broken over pages, but never after its first or before its last line. */
const BREAKABLE_FROM = 8;

/** One strip for each printed line of `text` within `width` points. */
export function setText(text: string, style: Style, width: number, tag: Tag, missing: Missing, align: Align = "left"): Strip[] {
  const set = linesOf(text).map((line) => setGlyphs(shape(line, style.weight, missing), style, width, tag, align));
  return keepShort(set.flatMap((strips, index) => (index < set.length - 1 ? spaced(strips, style) : strips)));
}

export function setGlyphs(glyphs: readonly Glyph[], style: Style, width: number, tag: Tag, align: Align): Strip[] {
  const { size, leading, colour } = style;
  const baseline = leading / 2 + size * 0.34;
  return wrap(glyphs, (width * 1000) / size).map(({ from, to, advance }) => {
    const x = align === "right" ? width - (advance * size) / 1000 : 0;
    const marks: Mark[] = from === to ? [] : [{ is: "text", x, y: baseline, size, colour, glyphs, from, to, tag }];
    return { before: 0, height: leading, keep: false, marks };
  });
}

/** Points. */
export const widthOf = (glyphs: readonly Glyph[], size: number): number => (advanceOf(glyphs) * size) / 1000;

export function keepShort(strips: readonly Strip[]): Strip[] {
  const last = strips.length - 1;
  const short = strips.length < BREAKABLE_FROM;
  return strips.map((strip, index) => ({ ...strip, keep: index < last && (short || index === 0 || index === last - 1) }));
}
