import type { Totals } from "../../estimating/sheet.js";

/** A letter for each tax category, when there is more than one to tell apart. */
export function taxLetters({ taxGroups }: Totals): ReadonlyMap<string, string> | undefined {
  if (taxGroups.length < 2) return undefined;
  return new Map(taxGroups.map(({ category }, index) => [category, letter(index)]));
}

/** A to Z, then AA, AB ... */
const letter = (index: number): string =>
  index < 26 ? String.fromCharCode(65 + index) : letter(Math.floor(index / 26) - 1) + letter(index % 26);
