import { glyphOf } from "../type/typeface.js";
import { move, type Strip } from "./strip.js";
import { COLOUR, type Colour, type Style } from "./style.js";

const BELOW = 2.2;

/** Adds space above and below freshly set strips. */
export function padded(strips: readonly Strip[], above: number = BELOW, below: number = BELOW): Strip[] {
  const last = strips.length - 1;
  if (last >= 0) move(strips[0]!.marks, 0, above);
  return strips.map((strip, index) => ({
    ...strip,
    height: strip.height + (index === 0 ? above : 0) + (index === last ? below : 0),
  }));
}

/** Space, and a line under the last strip. */
export function ruled(strips: readonly Strip[], width: number, thickness: number, colour: Colour): Strip[] {
  const roomy = padded(strips);
  const last = roomy.pop()!;
  const y = last.height - thickness;
  return [...roomy, { ...last, marks: [...last.marks, { is: "fill", x: 0, y, width, height: thickness, colour }] }];
}

/** A quiet ground behind each strip, `beyond` the text on either side. Overlaps a little, so that no seam shows. */
export const tinted = (strips: readonly Strip[], width: number, beyond: number): Strip[] =>
  strips.map((strip) => ({
    ...strip,
    marks: [
      { is: "fill", x: -beyond, y: -0.1, width: width + 2 * beyond, height: strip.height + 0.2, colour: COLOUR.tint },
      ...strip.marks,
    ],
  }));

/** Ends with a space that nobody sees, so that what follows within the same tag is not read as part of the last word (ISO 32000-1, 14.8.2.5). */
export function spaced(strips: readonly Strip[], { weight }: Style): Strip[] {
  const last = strips.at(-1);
  const mark = last?.marks.at(-1);
  const space = glyphOf(0x20, weight);
  if (!last || mark?.is !== "text" || !space) return [...strips];
  const glyphs = [...mark.glyphs.slice(mark.from, mark.to), space];
  return [
    ...strips.slice(0, -1),
    { ...last, marks: [...last.marks.slice(0, -1), { ...mark, glyphs, from: 0, to: glyphs.length }] },
  ];
}
