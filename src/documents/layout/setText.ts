import { advanceOf, linesOf, type Missing, shape } from "../type/shape.js";
import type { Glyph } from "../type/typeface.js";
import { wrap } from "../type/wrap.js";
import { spaced } from "./space.js";
import type { Mark, Strip } from "./strip.js";
import { COLOUR, type Style } from "./style.js";
import type { Tag } from "./tag.js";

export type Align = "left" | "right";

/** A paragraph of more lines than this may be broken over pages, but never after its first or before its last line. */
const BREAKABLE_FROM = 8;

/** One strip for each printed line of `text` within `width` points. */
export function setText(text: string, style: Style, width: number, tag: Tag, missing: Missing, align: Align = "left"): Strip[] {
  const set = linesOf(text).map((line) => setGlyphs(shape(line, style.weight, missing), style, width, tag, align));
  return keepShort(set.flatMap((strips, index) => (index < set.length - 1 ? spaced(strips, style) : strips)));
}

function setGlyphs(glyphs: readonly Glyph[], style: Style, width: number, tag: Tag, align: Align): Strip[] {
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

/** A stretch of a paragraph with a style and a tag of its own. */
interface Run {
  readonly text: string;
  readonly style: Style;
  readonly tag: Tag;
  /** Where it leads: it is underlined, and a link on the page. */
  readonly to?: string | undefined;
}

const UNDERLINE = 0.5;

/** One paragraph of several runs, wrapped as one text. Size and leading are the first run's; line ends count as spaces. */
export function setRuns(runs: readonly Run[], width: number, missing: Missing): Strip[] {
  const { size, leading } = runs[0]!.style;
  const baseline = leading / 2 + size * 0.34;
  const shaped = runs.map(({ text, style }) => shape(text, style.weight, missing));
  const glyphs = shaped.flat();
  const lines = wrap(glyphs, (width * 1000) / size).map(({ from, to }): Strip => {
    const marks: Mark[] = [];
    let begin = 0;
    let x = 0;
    runs.forEach(({ style, tag, to: leadsTo }, index) => {
      const [first, last] = [Math.max(from, begin), Math.min(to, begin + shaped[index]!.length)];
      begin += shaped[index]!.length;
      if (first >= last) return;
      const reach = (advanceOf(glyphs, first, last) * size) / 1000;
      marks.push({ is: "text", x, y: baseline, size, colour: style.colour, glyphs, from: first, to: last, tag });
      if (leadsTo !== undefined) {
        marks.push({ is: "link", x, y: 0, width: reach, height: leading, to: leadsTo, tag });
        marks.push({ is: "fill", x, y: baseline + 1.2, width: reach, height: UNDERLINE, colour: COLOUR.accent });
      }
      x += reach;
    });
    return { before: 0, height: leading, keep: false, marks };
  });
  return keepShort(lines);
}
