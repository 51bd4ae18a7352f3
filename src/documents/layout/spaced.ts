import { glyphOf } from "../type/typeface.js";
import type { Strip } from "./strip.js";
import type { Style } from "./style.js";

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
