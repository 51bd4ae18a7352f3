import type { Missing } from "../type/shape.js";
import { COLOUR } from "./colour.js";
import { setText } from "./setText.js";
import { beside, blank, indent, type Mark, type Strip } from "./strip.js";
import { STYLE } from "./style.js";
import type { Tag } from "./tag.js";

const BETWEEN = 24;
const LINE = 0.6;
/** Room for handwriting. */
const WRITING = 21;
const SIGNING = 26;

/** Lines to write on, side by side, each over its label. */
export function setBlanks(labels: readonly string[], width: number, parent: Tag, missing: Missing): Strip[] {
  const own = (width - BETWEEN * (labels.length - 1)) / labels.length;
  const cells = labels.map((label, index) => {
    const under = setText(label, STYLE.label, own, parent.add("P"), missing);
    const strips = [{ ...blank(SIGNING), marks: [line(SIGNING, own, true)] }, ...under];
    return indent(strips, index * (own + BETWEEN));
  });
  return beside(cells);
}

/** Empty lines across the page. */
export const setRuled = (lines: number, width: number): Strip[] =>
  Array.from({ length: lines }, () => ({ ...blank(WRITING), keep: false, marks: [line(WRITING, width, false)] }));

const line = (bottom: number, width: number, strong: boolean): Mark => ({
  is: "fill",
  x: 0,
  y: bottom - LINE,
  width,
  height: LINE,
  colour: strong ? COLOUR.ink : COLOUR.rule,
});
