import type { Missing } from "../type/shape.js";
import type { Block } from "./block.js";
import { COLOUR } from "./colour.js";
import { setText } from "./setText.js";
import { spaced } from "./spaced.js";
import { blank, gap, indent, type Strip, together } from "./strip.js";
import { STYLE } from "./style.js";
import type { Tag } from "./tag.js";

const INSET = 14;
const BAR = 3;
type Cautions = Extract<Block, { is: "cautions" }>;

/** Cautions beside a bar, which also shows without colour. */
export function setCautions({ title, cautions, last }: Cautions, width: number, parent: Tag, missing: Missing): Strip[] {
  const room = width - INSET;
  const inner = [
    ...together(setText(title, STYLE.caution, room, parent.add("H2"), missing), true),
    ...cautions.flatMap(({ label, value, note }) => {
      const tag = parent.add("P");
      const named = spaced(setText(label, STYLE.strong, room, tag, missing), STYLE.strong);
      const text = setText(value, STYLE.body, room, tag, missing);
      const noted = note ? [...spaced(text, STYLE.body), ...setText(note, STYLE.small, room, tag, missing)] : text;
      return together([...named, ...noted, blank(4)]);
    }),
    ...(last ? setText(last, STYLE.body, room, parent.add("P"), missing) : []),
  ];
  return [gap(10), ...indent(inner, INSET).map(withBar)];
}

const withBar = (strip: Strip): Strip => ({
  ...strip,
  marks: [{ is: "fill", x: 0, y: 0, width: BAR, height: strip.height + 0.2, colour: COLOUR.caution }, ...strip.marks],
});
