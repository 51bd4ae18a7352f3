import { COLOUR } from "../paper/colour.js";
import type { Missing } from "../type/shape.js";
import type { Block, Fact } from "./block.js";
import { setSquareCode } from "./setSquareCode.js";
import { setTable } from "./setTable.js";
import { setText } from "./setText.js";
import { abreast, beside, gap, indent, type Mark, type Strip, together } from "./strip.js";
import { STYLE } from "./style.js";
import type { Tag } from "./tag.js";
import { tickBox } from "./tickBox.js";

/** What every setter is told: how wide, which tag the text belongs under, and where to note what cannot be printed. */
type Setter<B> = (block: B, width: number, parent: Tag, missing: Missing) => Strip[];
type Setters = { readonly [K in Block["is"]]: Setter<Extract<Block, { is: K }>> };

const COLUMN_GAP = 24;
const FIGURES_IN_A_ROW = 3;

const SET: Setters = {
  title: ({ text }, width, parent, missing) => setText(text, STYLE.title, width, parent.add("H1"), missing),
  shop: ({ text }, width, parent, missing) => setText(text, STYLE.shop, width, parent.add("P"), missing),
  heading: ({ text }, width, parent, missing) => [
    gap(13),
    ...together(setText(text, STYLE.heading, width, parent.add("H2"), missing), true),
    gap(2),
  ],
  paragraph: ({ text, small }, width, parent, missing) => [
    { ...gap(2), keep: true },
    ...setText(text, small ? STYLE.small : STYLE.body, width, parent.add("P"), missing),
  ],
  facts: ({ facts, labels = 104 }, width, parent, missing) =>
    facts.flatMap((fact) => setFact(fact, labels, width, parent.add("P"), missing)),
  columns: ({ columns, shares }, width, parent, missing) => {
    const room = width - COLUMN_GAP * (columns.length - 1);
    let x = 0;
    const set = columns.map((blocks, index) => {
      const own = room * shares[index]!;
      const strips = indent(setBlocks(blocks, own, parent.add("Sect"), missing), x);
      x += own + COLUMN_GAP;
      return strips;
    });
    return abreast(set);
  },
  figures: ({ figures }, width, parent, missing) => {
    const rows: Strip[] = [];
    const own = (width - COLUMN_GAP * (FIGURES_IN_A_ROW - 1)) / FIGURES_IN_A_ROW;
    for (let at = 0; at < figures.length; at += FIGURES_IN_A_ROW) {
      const row = figures.slice(at, at + FIGURES_IN_A_ROW);
      rows.push(
        blank(7),
        ...beside(row.map((fact, index) => indent(setFigure(fact, own, parent, missing), index * (own + COLUMN_GAP)))),
      );
    }
    return [
      gap(10),
      ...together(
        [...rows, blank(7)].map((strip) => tint(strip, width)),
        true,
      ),
      { ...gap(8), keep: false },
    ];
  },
  table: setTable,
  cautions: ({ title, cautions, last }, width, parent, missing) => {
    const room = width - 14;
    const inner = [
      ...together(setText(title, STYLE.caution, room, parent.add("H2"), missing), true),
      ...cautions.flatMap((fact) => setCaution(fact, room, parent.add("P"), missing)),
      ...(last ? setText(last, STYLE.body, room, parent.add("P"), missing) : []),
    ];
    return [gap(10), ...indent(inner, 14).map(withBar)];
  },
  choices: ({ choices }, width, parent, missing) =>
    choices.flatMap((choice) => [
      gap(4),
      ...tickBox(indent(setText(choice, STYLE.body, width - 17, parent.add("P"), missing), 17), "empty", STYLE.body),
    ]),
  blanks: ({ labels }, width, parent, missing) => {
    const own = (width - COLUMN_GAP * (labels.length - 1)) / labels.length;
    const cells = labels.map((label, index) => indent(setBlank(label, own, parent, missing), index * (own + COLUMN_GAP)));
    return beside(cells);
  },
  ruled: ({ lines }, width) =>
    Array.from({ length: lines }, () => ({ ...blank(21), keep: false, marks: [line(20.5, width, COLOUR.rule)] })),
  "square code": setSquareCode,
  gap: ({ height }) => [gap(height)],
  rule: (_, width) => [
    { before: 8, height: 1.2, keep: true, marks: [{ is: "fill", x: 0, y: 0, width, height: 1.2, colour: COLOUR.accent }] },
  ],
  together: ({ blocks }, width, parent, missing) => together(setBlocks(blocks, width, parent, missing)),
};

export const setBlocks = (blocks: readonly Block[], width: number, parent: Tag, missing: Missing): Strip[] =>
  blocks.flatMap((block) => (SET[block.is] as Setter<Block>)(block, width, parent, missing));

function setFact({ label, value, note }: Fact, labels: number, width: number, tag: Tag, missing: Missing): Strip[] {
  const room = width - labels;
  const values = setText(value, STYLE.body, room, tag, missing);
  if (note) values.push(...setText(note, STYLE.small, room, tag, missing));
  return beside([setText(label, STYLE.label, labels - 8, tag, missing), indent(values, labels)]);
}

function setCaution({ label, value, note }: Fact, width: number, tag: Tag, missing: Missing): Strip[] {
  const strips = [...setText(label, STYLE.strong, width, tag, missing), ...setText(value, STYLE.body, width, tag, missing)];
  if (note) strips.push(...setText(note, STYLE.small, width, tag, missing));
  return together([...strips, blank(4)]);
}

function setFigure({ label, value, note }: Fact, width: number, parent: Tag, missing: Missing): Strip[] {
  const tag = parent.add("P");
  const strips = [...setText(label, STYLE.label, width, tag, missing), ...setText(value, STYLE.figure, width, tag, missing)];
  return note ? [...strips, ...setText(note, STYLE.small, width, tag, missing)] : strips;
}

function setBlank(label: string, width: number, parent: Tag, missing: Missing): Strip[] {
  const under = setText(label, STYLE.label, width, parent.add("P"), missing);
  return [{ ...blank(26), marks: [line(25.4, width, COLOUR.ink)] }, ...under];
}

const blank = (height: number): Strip => ({ before: 0, height, keep: true, marks: [] });
const line = (y: number, width: number, colour: (typeof COLOUR)[keyof typeof COLOUR]): Mark => ({
  is: "fill",
  x: 0,
  y,
  width,
  height: 0.6,
  colour,
});

const tint = (strip: Strip, width: number): Strip => ({
  ...strip,
  marks: [{ is: "fill", x: -8, y: -0.1, width: width + 16, height: strip.height + 0.2, colour: COLOUR.tint }, ...strip.marks],
});

const withBar = (strip: Strip): Strip => ({
  ...strip,
  marks: [{ is: "fill", x: 0, y: 0, width: 3, height: strip.height + 0.2, colour: COLOUR.caution }, ...strip.marks],
});
