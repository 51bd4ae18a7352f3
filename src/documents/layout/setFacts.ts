import type { Missing } from "../type/shape.js";
import type { Fact } from "./block.js";
import { setText } from "./setText.js";
import { tinted } from "./space.js";
import { spaced } from "./spaced.js";
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
    const plain = setText(value, STYLE.body, room, body, missing);
    const values = note ? [...spaced(plain, STYLE.body), ...setText(note, STYLE.small, room, body, missing)] : plain;
    return beside([labelled, indent(values, labels)]);
  });

/** The label over the value, and a note beneath. */
export function setFigures(figures: readonly Fact[], width: number, parent: Tag, missing: Missing): Strip[] {
  const own = (width - FIGURE_GAP * (FIGURES_IN_A_ROW - 1)) / FIGURES_IN_A_ROW;
  const rows: Strip[] = [];
  for (let at = 0; at < figures.length; at += FIGURES_IN_A_ROW) {
    const cells = figures.slice(at, at + FIGURES_IN_A_ROW).map(({ label, value, note }, index) => {
      const tag = parent.add("P");
      const named = spaced(setText(label, STYLE.label, own, tag, missing), STYLE.label);
      const figure = setText(value, STYLE.figure, own, tag, missing);
      const noted = note ? [...spaced(figure, STYLE.figure), ...setText(note, STYLE.small, own, tag, missing)] : figure;
      return indent([...named, ...noted], index * (own + FIGURE_GAP));
    });
    rows.push(blank(7), ...beside(cells));
  }
  return [gap(10), ...together(tinted([...rows, blank(7)], width, FIGURE_BEYOND), true), { ...gap(8), keep: false }];
}
