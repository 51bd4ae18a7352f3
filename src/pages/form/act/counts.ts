/** All counts of the grid at once. */
import type { Fields } from "../fields.js";
import type { Acted } from "./act.js";
import { take } from "./remove.js";

export const clearCounts = (fields: Fields): Acted =>
  take(fields, (name) => name.startsWith("cells.") || name.startsWith("cellIds."), "all counts of the grid");

/** Empty cells take the count the model usually has. */
export function takeUsualCounts(fields: Fields): Acted {
  const filled = new Map(fields);
  for (const [name, text] of fields) {
    if (!name.startsWith("usual.")) continue;
    const cell = `cells.${name.slice("usual.".length)}`;
    if (!filled.get(cell)?.trim()) filled.set(cell, text);
  }
  return { fields: filled, say: "Empty cells took the model's usual counts." };
}
