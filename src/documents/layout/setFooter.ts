import type { Missing } from "../type/shape.js";
import { COLOUR } from "./colour.js";
import { setText } from "./setText.js";
import type { Strip } from "./strip.js";
import { STYLE } from "./style.js";
import type { Tag } from "./tag.js";

const RULE = 0.5;
const ABOVE = 4;

/** Lines that stand at the foot of every page, under a hairline. */
export function setFooter(lines: readonly string[], width: number, parent: Tag, missing: Missing): Strip[] {
  if (lines.length === 0) return [];
  const rule: Strip = {
    before: 0,
    height: ABOVE,
    keep: true,
    marks: [{ is: "fill", x: 0, y: 0, width, height: RULE, colour: COLOUR.rule }],
  };
  return [rule, ...lines.flatMap((line) => setText(line, STYLE.small, width, parent.add("P"), missing))];
}
