import type { GroupPrice } from "../../estimating/sheet.js";
import type { Words } from "../../wording/english/index.js";
import { chance } from "../../wording/figures.js";
import { listed } from "../../wording/list.js";
import type { Block, Cell, Row } from "../layout/block.js";
import { markOf } from "./earlier.js";
import type { Subject } from "./subject.js";

/** What the owner may choose, with boxes to tick. */
export function options(subject: Subject): Block[] {
  const { sheet, cash, words } = subject;
  if (sheet.options.length === 0) return [];
  const say = words.paper.choices;
  const rows = sheet.options.map((option): Row => {
    const chosen = option.chosen === true;
    return {
      ...markOf(subject, "option", option.id),
      cells: [
        { ...named(option, words), box: chosen ? "ticked" : "empty" },
        { text: chosen ? say.yes : say.no },
        { text: cash(option.price) },
      ],
    };
  });
  return [
    { is: "heading", text: say.options },
    {
      is: "table",
      columns: [
        { title: say.option, width: "rest" },
        { title: say.inTheTotal, width: "fit" },
        { title: say.price, width: "fit", align: "right" },
      ],
      rows,
    },
    {
      is: "paragraph",
      small: true,
      text: say.filledBox,
    },
  ];
}

/** Agreed in advance, charged only when needed. */
export function ifFound(subject: Subject): Block[] {
  const { sheet, tongue, cash, words } = subject;
  if (sheet.ifFound.length === 0) return [];
  const say = words.paper.choices;
  const rows = sheet.ifFound.map((found): Row => {
    const likely = found.probability === undefined ? "" : chance(found.probability, tongue.locale);
    const price = found.covered ? say.covered : cash(found.price);
    return { ...markOf(subject, "if found", found.id), cells: [named(found, words), { text: likely }, { text: price }] };
  });
  return [
    { is: "heading", text: say.ifFound },
    {
      is: "paragraph",
      small: true,
      leads: true,
      text: sheet.ifFound.every(({ covered }) => covered) ? say.fixedPriceCovers : say.notInTheTotal,
    },
    {
      is: "table",
      columns: [
        { title: say.work, width: "rest" },
        { title: say.chance, width: "fit", align: "right" },
        { title: say.priceIfNeeded, width: "fit", align: "right" },
      ],
      rows,
    },
  ];
}

/** Work that costs less now than at a visit of its own. */
export function worthDoing({ sheet, input, cash, words }: Subject): Block[] {
  if (sheet.suggestions.length === 0) return [];
  const say = words.paper.choices;
  const types = new Map(input.rateBook.partTypes.map(({ id, name }) => [id, name]));
  const rows = sheet.suggestions.map(({ assembly, operation, count, partType, reason, now, later }): Row => {
    const part = partType === undefined ? "" : `, ${types.get(partType) ?? partType}`;
    const times = count > 1 ? ` × ${count}` : "";
    return {
      cells: [
        { text: `${assembly.name}: ${operation.name}${part}${times}`, note: reason, box: "empty" },
        { text: cash(now) },
        { text: cash(later) },
      ],
    };
  });
  return [
    { is: "heading", text: say.worthDoing },
    {
      is: "table",
      columns: [
        { title: say.tickToAdd, width: "rest" },
        { title: say.now, width: "fit", align: "right" },
        { title: say.later, width: "fit", align: "right" },
      ],
      rows,
    },
  ];
}

const named = ({ names, reason }: GroupPrice, { lists }: Words): Cell => ({
  text: listed(names, lists.and),
  ...(reason && { note: reason }),
});
