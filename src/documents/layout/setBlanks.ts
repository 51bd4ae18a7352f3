import type { Missing } from "../type/shape.js";
import { setText } from "./setText.js";
import { beside, blank, indent, type Mark, type Strip } from "./strip.js";
import { COLOUR, STYLE, type Style } from "./style.js";
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

const SIDE = 8.4;

/** Draws a box to tick at the left of the first line; a ticked one is filled with a smaller square, which also prints without colour. */
export function tickBox(strips: readonly Strip[], state: "empty" | "ticked", { leading }: Style): Strip[] {
  const [first, ...rest] = strips;
  const y = (leading - SIDE) / 2;
  const marks: Mark[] = [{ is: "frame", x: 0.5, y, width: SIDE, height: SIDE, line: 0.8, colour: COLOUR.ink }];
  if (state === "ticked") {
    marks.push({ is: "fill", x: 2.5, y: y + 2, width: SIDE - 4, height: SIDE - 4, colour: COLOUR.ink });
  }
  return first ? [{ ...first, marks: [...first.marks, ...marks] }, ...rest] : [];
}
