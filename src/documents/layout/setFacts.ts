import type { Missing } from "../type/shape.js";
import type { Fact } from "./block.js";
import { setText } from "./setText.js";
import { tinted } from "./space.js";
import { beside, blank, gap, indent, type Strip, together } from "./strip.js";
import { STYLE } from "./style.js";
import type { Tag } from "./tag.js";

const FIGURES_IN_A_ROW = 3;
const FIGURE_GAP = 24;
const FIGURE_BEYOND = 8;

/** Labels and, beside each, what it says. */
export const setFacts = (facts: readonly Fact[], labels: number, width: number, list: Tag, missing: Missing): Strip[] =>
  facts.flatMap(({ label, value, note }) => {
    const item = list.add("LI");
    const labelled = setText(label, STYLE.label, labels - 8, item.add("Lbl"), missing);
    const body = item.add("LBody");
    const room = width - labels;
    const values = setText(value, STYLE.body, room, body, missing);
    if (note) values.push(...setText(note, STYLE.small, room, body, missing));
    return beside([labelled, indent(values, labels)]);
  });

/** The label over the value, and a note beneath. */
export function setFigures(figures: readonly Fact[], width: number, parent: Tag, missing: Missing): Strip[] {
  const own = (width - FIGURE_GAP * (FIGURES_IN_A_ROW - 1)) / FIGURES_IN_A_ROW;
  const rows: Strip[] = [];
  for (let at = 0; at < figures.length; at += FIGURES_IN_A_ROW) {
    const cells = figures.slice(at, at + FIGURES_IN_A_ROW).map(({ label, value, note }, index) => {
      const tag = parent.add("P");
      const strips = [...setText(label, STYLE.label, own, tag, missing), ...setText(value, STYLE.figure, own, tag, missing)];
      if (note) strips.push(...setText(note, STYLE.small, own, tag, missing));
      return indent(strips, index * (own + FIGURE_GAP));
    });
    rows.push(blank(7), ...beside(cells));
  }
  return [gap(10), ...together(tinted([...rows, blank(7)], width, FIGURE_BEYOND), true), { ...gap(8), keep: false }];
}
