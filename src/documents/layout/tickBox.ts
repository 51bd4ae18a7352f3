import { COLOUR } from "./colour.js";
import type { Mark, Strip } from "./strip.js";
import type { Style } from "./style.js";

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
