/** Which columns of the grid show: those in use or asked for, filled up to the usual dozen. */
import { type Column, columnsOf } from "../form/context.js";
import { key } from "../form/fields.js";
import type { IntakeView } from "./view.js";

const USUAL = { parts: 9, cleaning: 3 };

export function columnsShown(view: IntakeView): readonly Column[] {
  const { cells, usual, show } = view.read.draft;
  const columns = columnsOf(view.context.rateBook);
  const inUse = new Set<string>(Object.keys(show));
  for (const table of [cells, usual]) {
    for (const row of Object.values(table))
      for (const [column, text] of Object.entries(row)) if (text.trim() !== "") inUse.add(column);
  }
  const room = USUAL.parts + USUAL.cleaning - inUse.size;
  const spare = columns.filter(({ id }) => !inUse.has(key(id)));
  const cleaning = spare.filter(({ group }) => group === "cleaning").slice(0, Math.max(0, Math.min(USUAL.cleaning, room)));
  const parts = spare.filter(({ group }) => group !== "cleaning").slice(0, Math.max(0, room - cleaning.length));
  const shown = new Set([...parts, ...cleaning]);
  return columns.filter((column) => shown.has(column) || inUse.has(key(column.id)));
}

/** Counts that lines add to a cell of the grid: `row.column` -> pieces. */
export function countsInLines(view: IntakeView): ReadonlyMap<string, number> {
  const { input, draft } = view.read;
  const typeOf = new Map(input.kinds?.map(({ id, type }) => [id, type]));
  const sums = new Map<string, number>();
  for (const { id, assembly, operation, part, count } of input.items) {
    if (!draft.line[key(id)]) continue;
    const column = part ? `p:${"kind" in part ? (typeOf.get(part.kind) ?? "") : part.type}` : `o:${operation}`;
    const cell = `${assembly === undefined ? "*" : key(assembly)}.${key(column)}`;
    sums.set(cell, (sums.get(cell) ?? 0) + count);
  }
  return sums;
}

export const GROUP_NAMES: Readonly<Record<string, string>> = {
  capacitor: "Capacitors",
  resistor: "Resistors",
  control: "Controls",
  semiconductor: "Semiconductors",
  valve: "Valves",
  cell: "Cells",
  connector: "Connectors",
  lamp: "Lamps",
  mechanical: "Mechanical",
  other: "Other parts",
  cleaning: "Cleaning",
};
