import type { Block } from "../../../src/documents/layout/block.js";

/** Every text of a document, in print order. */
export const textsOf = (blocks: readonly Block[]): string[] => blocks.flatMap(textsOfOne);

function textsOfOne(block: Block): string[] {
  switch (block.is) {
    case "title":
    case "shop":
    case "heading":
    case "paragraph":
      return [block.text];
    case "facts":
      return block.facts.flatMap(({ label, value, note }) => [label, value, ...(note ? [note] : [])]);
    case "figures":
      return block.figures.flatMap(({ label, value, note }) => [label, value, ...(note ? [note] : [])]);
    case "link":
      return [block.before + block.shown + block.after];
    case "chart":
      return [
        block.alternative,
        ...[block.across, block.up].flatMap(({ title, ticks }) => [title, ...ticks.map(({ label }) => label)]),
        ...block.dots.map(({ label }) => label),
        block.upright.label,
      ];
    case "columns":
      return block.columns.flatMap(textsOf);
    case "together":
      return textsOf(block.blocks);
    case "table":
      return [
        ...block.columns.map(({ title }) => title),
        ...block.rows.flatMap(({ cells, mark }) => [
          ...cells.flatMap(({ text, note }) => (note ? [text, note] : [text])),
          ...(mark ? [mark.text] : []),
        ]),
      ];
    case "cautions":
      return [
        block.title,
        ...block.cautions.flatMap(({ label, value, note }) => [label, value, ...(note ? [note] : [])]),
        ...(block.last ? [block.last] : []),
      ];
    case "list":
      return [...block.items];
    case "choices":
      return [...block.choices];
    case "blanks":
      return [...block.labels];
    case "picture":
      return [block.alternative];
    case "square code":
    case "ruled":
    case "rule":
    case "gap":
    case "page":
      return [];
  }
}
