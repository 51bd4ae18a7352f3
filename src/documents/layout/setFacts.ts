import type { Missing } from "../type/shape.js";
import type { Block, Fact } from "./block.js";
import { setText } from "./setText.js";
import { spaced, tinted } from "./space.js";
import { beside, blank, gap, indent, type Strip, together } from "./strip.js";
import { COLOUR, STYLE } from "./style.js";
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
