import { isSet, packagePrices } from "../../estimating/agreement/packages.js";
import { couldPass } from "../../estimating/sheet/terms.js";
import type { GroupPrice } from "../../estimating/sheet.js";
import type { Words } from "../../wording/english/index.js";
import { chance } from "../../wording/figures.js";
import { listed } from "../../wording/list.js";
import type { Block, Cell, Row } from "../layout/block.js";
import { markOf } from "./earlier.js";
import type { Subject } from "./subject.js";

/** Sets of options side by side, each with what all comes to, and a box. */
export function packages({ sheet, input, cash, words }: Subject): Block[] {
  const texts = words.paper.choices;
  const sets = packagePrices(input, sheet);
  if (sets.length === 0) return [];
  const taken = sheet.options.flatMap(({ id, chosen }) => (chosen ? [id] : []));
  const called = new Map(sheet.options.map(({ id, names }) => [id, listed(names, words.lists.and)]));
  return [
    { is: "gap", height: 6 },
    {
      is: "table",
      columns: [
        { title: texts.packages, width: "rest" },
        { title: texts.allTogether, width: "fit", align: "right" },
      ],
      rows: sets.map(({ name, options: ids, total, ceiling }): Row => {
        const inIt = ids.flatMap((id) => called.get(id) ?? []);
        return {
          cells: [
            {
              text: name,
              note: `${inIt.length === 0 ? texts.noOptions : inIt.join("; ")} · ${words.paper.letter.neverMore.toLowerCase()} ${cash(ceiling)}`,
              box: isSet(ids, taken) ? "ticked" : "empty",
            },
            { text: cash(total) },
          ],
        };
      }),
    },
  ];
}

/** What the owner may choose, with boxes to tick. */
export function options(subject: Subject): Block[] {
  const { sheet, cash, words } = subject;
  if (sheet.options.length === 0) return [];
  const texts = words.paper.choices;
  const rows = sheet.options.map((option): Row => {
    const chosen = option.chosen === true;
    return {
      ...markOf(subject, "option", option.id),
      cells: [
        { ...named(option, words), ...leftOut(option, words), box: chosen ? "ticked" : "empty" },
        { text: chosen ? texts.yes : texts.no },
        { text: cash(option.price) },
      ],
    };
  });
  return [
    { is: "heading", text: texts.options },
    {
      is: "table",
      columns: [
        { title: texts.option, width: "rest" },
        { title: texts.inTheTotal, width: "fit" },
        { title: texts.price, width: "fit", align: "right" },
      ],
      rows,
    },
    {
      is: "paragraph",
      small: true,
      text: texts.filledBox,
    },
  ];
}

/** Agreed in advance, charged only when needed. */
export function ifFound(subject: Subject): Block[] {
  const { sheet, tongue, cash, words } = subject;
  if (sheet.ifFound.length === 0) return [];
  const texts = words.paper.choices;
  const rows = sheet.ifFound.map((found): Row => {
    const likely = found.probability === undefined ? "" : chance(found.probability, tongue.locale);
    const price = found.covered ? texts.covered : cash(found.price);
    return { ...markOf(subject, "if found", found.id), cells: [named(found, words), { text: likely }, { text: price }] };
  });
  return [
    { is: "heading", text: texts.ifFound },
    {
      is: "paragraph",
      small: true,
      leads: true,
      text: sheet.ifFound.every(({ covered }) => covered)
        ? texts.fixedPriceCovers
        : [texts.notInTheTotal, ...(couldPass(sheet) ? [texts.couldPass] : [])].join(" "),
    },
    {
      is: "table",
      columns: [
        { title: texts.work, width: "rest" },
        { title: texts.chance, width: "fit", align: "right" },
        { title: texts.priceIfNeeded, width: "fit", align: "right" },
      ],
      rows,
    },
  ];
}

/** Work that costs less now than at a visit of its own. */
export function worthDoing({ sheet, input, cash, words }: Subject): Block[] {
  if (sheet.suggestions.length === 0) return [];
  const texts = words.paper.choices;
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
    { is: "heading", text: texts.worthDoing },
    {
      is: "table",
      columns: [
        { title: texts.tickToAdd, width: "rest" },
        { title: texts.now, width: "fit", align: "right" },
        { title: texts.later, width: "fit", align: "right" },
      ],
      rows,
    },
  ];
}

const named = ({ names, reason }: GroupPrice, { lists }: Words): Cell => ({
  text: listed(names, lists.and),
  ...(reason && { note: reason }),
});

const leftOut = ({ chosen, refused, reason }: GroupPrice, { paper }: Words): Pick<Cell, "note"> =>
  chosen || refused === undefined ? {} : { note: [reason, paper.choices.refused(refused)].filter(Boolean).join(". ") };
