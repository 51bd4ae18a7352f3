import type { GroupPrice } from "../../estimating/sheet.js";
import { chance, listed } from "../../wording/index.js";
import type { Block, Cell, Row } from "../layout/block.js";
import { markOf } from "./earlier.js";
import type { Subject } from "./subject.js";

/** What the owner may choose, with boxes to tick. */
export function options({ sheet, cash, changes }: Subject): Block[] {
  if (sheet.options.length === 0) return [];
  const rows = sheet.options.map((option): Row => {
    const chosen = option.chosen === true;
    return {
      ...markOf(changes, "option", option.id),
      cells: [
        { ...named(option), box: chosen ? "ticked" : "empty" },
        { text: chosen ? "yes" : "no" },
        { text: cash(option.price) },
      ],
    };
  });
  return [
    { is: "heading", text: "Options: tick what you want" },
    {
      is: "table",
      columns: [
        { title: "Option", width: "rest" },
        { title: "In the total", width: "fit" },
        { title: "Price, tax included", width: "fit", align: "right" },
      ],
      rows,
    },
    {
      is: "paragraph",
      small: true,
      text:
        "A filled box is in the total already; strike it out to leave it. Each price is for that option alone, beside what is chosen now: " +
        "options behind the same panel share its opening, so several together may come to another figure, which we will confirm.",
    },
  ];
}

const NOT_IN_THE_TOTAL =
  "Not in the total. By agreeing you let us do this when it proves necessary, at the price given and within the ceiling, without asking again.";
const COVERED = "The fixed price covers this: we do it when it proves necessary, and you pay no more for it.";

/** Agreed in advance, charged only when needed. */
export function ifFound({ sheet, tongue, cash, changes }: Subject): Block[] {
  if (sheet.ifFound.length === 0) return [];
  const rows = sheet.ifFound.map((found): Row => {
    const likely = found.probability === undefined ? "" : chance(found.probability, tongue.locale);
    const price = found.covered ? "covered" : cash(found.price);
    return { ...markOf(changes, "if found", found.id), cells: [named(found), { text: likely }, { text: price }] };
  });
  return [
    { is: "heading", text: "Only if found necessary" },
    {
      is: "paragraph",
      small: true,
      leads: true,
      text: sheet.ifFound.every(({ covered }) => covered) ? COVERED : NOT_IN_THE_TOTAL,
    },
    {
      is: "table",
      columns: [
        { title: "Work", width: "rest" },
        { title: "Chance", width: "fit", align: "right" },
        { title: "Price if needed, tax included", width: "fit", align: "right" },
      ],
      rows,
    },
  ];
}

/** Work that costs less now than at a visit of its own. */
export function worthDoing({ sheet, input, cash }: Subject): Block[] {
  if (sheet.suggestions.length === 0) return [];
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
    { is: "heading", text: "Worth doing while it is open" },
    {
      is: "table",
      columns: [
        { title: "Not in the total: tick to add", width: "rest" },
        { title: "Now", width: "fit", align: "right" },
        { title: "At a later visit", width: "fit", align: "right" },
      ],
      rows,
    },
  ];
}

const named = ({ names, reason }: GroupPrice): Cell => ({ text: listed(names), ...(reason && { note: reason }) });
