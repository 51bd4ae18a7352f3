import { advanceOf, type Missing, shape } from "../type/shape.js";
import { wrap } from "../type/wrap.js";
import { COLOUR } from "./colour.js";
import { keepShort } from "./setText.js";
import type { Mark, Strip } from "./strip.js";
import type { Style } from "./style.js";
import type { Tag } from "./tag.js";

/** A stretch of a paragraph with a style and a tag of its own. */
export interface Run {
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
