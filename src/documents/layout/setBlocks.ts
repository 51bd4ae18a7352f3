import type { Missing } from "../type/shape.js";
import type { Block } from "./block.js";
import { setBlanks, setRuled, tickBox } from "./setBlanks.js";
import { setChart } from "./setChart.js";
import { setCautions, setFacts, setFigures } from "./setFacts.js";
import { setLink, setSquareCode } from "./setLink.js";
import { setTable } from "./setTable.js";
import { setText } from "./setText.js";
import { abreast, gap, indent, type Strip, together } from "./strip.js";
import { COLOUR, STYLE } from "./style.js";
import type { Tag } from "./tag.js";

/** What every setter is told: how wide, which tag the text belongs under, and where to note what cannot be printed. */
type Setter<B> = (block: B, width: number, parent: Tag, missing: Missing) => Strip[];
type Setters = { readonly [K in Block["is"]]: Setter<Extract<Block, { is: K }>> };

const COLUMN_GAP = 24;
const CHOICE_ROOM = 17;
const RULE = 1.2;

const SET: Setters = {
  title: ({ text }, width, parent, missing) => setText(text, STYLE.title, width, parent.add("H1"), missing),
  shop: ({ text }, width, parent, missing) => setText(text, STYLE.shop, width, parent.add("P"), missing),
  heading: ({ text }, width, parent, missing) => [
    gap(13),
    ...together(setText(text, STYLE.heading, width, parent.add("H2"), missing), true),
    gap(2),
  ],
  paragraph: ({ text, small, large, leads }, width, parent, missing) => {
    const strips = setText(text, small ? STYLE.small : large ? STYLE.large : STYLE.body, width, parent.add("P"), missing);
    return [gap(2), ...(leads ? together(strips, true) : strips)];
  },
  link: setLink,
  facts: ({ facts, labels }, width, parent, missing) =>
    facts.length === 0 ? [] : setFacts(facts, labels, width, parent.add("L"), missing),
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
  figures: ({ figures }, width, parent, missing) => setFigures(figures, width, parent, missing),
  table: setTable,
  cautions: setCautions,
  list: ({ items }, width, parent, missing) => {
    const list = parent.add("L");
    return items.flatMap((item) => [gap(2), ...setText(item, STYLE.small, width, list.add("LI").add("LBody"), missing)]);
  },
  choices: ({ choices }, width, parent, missing) => {
    const list = parent.add("L");
    return choices.flatMap((choice) => {
      const text = setText(choice, STYLE.body, width - CHOICE_ROOM, list.add("LI").add("LBody"), missing);
      return [gap(4), ...tickBox(indent(text, CHOICE_ROOM), "empty", STYLE.body)];
    });
  },
  blanks: ({ labels }, width, parent, missing) => setBlanks(labels, width, parent, missing),
  ruled: ({ lines }, width) => setRuled(lines, width),
  "square code": setSquareCode,
  picture: ({ picture, alternative, width, height, turn }, _, parent) => {
    const tag = parent.add("Figure", { alternative });
    return [{ before: 0, height, keep: true, marks: [{ is: "picture", x: 0, y: 0, width, height, picture, turn, tag }] }];
  },
  chart: setChart,
  page: () => [{ ...gap(0), turn: true }],
  gap: ({ height }) => [gap(height)],
  rule: (_, width) => [
    { before: 8, height: RULE, keep: true, marks: [{ is: "fill", x: 0, y: 0, width, height: RULE, colour: COLOUR.accent }] },
  ],
  together: ({ blocks }, width, parent, missing) => together(setBlocks(blocks, width, parent, missing)),
};

/** Strips in print order; what the fonts lack is noted in `missing`, and the text is hung under `parent` in reading order. */
export const setBlocks = (blocks: readonly Block[], width: number, parent: Tag, missing: Missing): Strip[] =>
  blocks.flatMap((block) => (SET[block.is] as Setter<Block>)(block, width, parent, missing));

const FOOT_RULE = 0.5;
const FOOT_ABOVE = 4;

/** Lines that stand at the foot of every page, under a hairline. */
export function setFooter(lines: readonly string[], width: number, parent: Tag, missing: Missing): Strip[] {
  if (lines.length === 0) return [];
  const rule: Strip = {
    before: 0,
    height: FOOT_ABOVE,
    keep: true,
    marks: [{ is: "fill", x: 0, y: 0, width, height: FOOT_RULE, colour: COLOUR.rule }],
  };
  return [rule, ...lines.flatMap((line) => setText(line, STYLE.small, width, parent.add("P"), missing))];
}
