/** Sets of options side by side, each at what all comes to when exactly its options are agreed to: the price that is then charged, never a sum. */
import type { EstimateInput, Minor } from "../input.js";
import { neverMore } from "../sheet/terms.js";
import type { Sheet } from "../sheet.js";
import { pricedSet } from "./choices.js";

export interface PackagePrice {
  readonly name: string;
  /** Ids of options; those that the estimate has no more are left out. */
  readonly options: readonly string[];
  /** Tax included. */
  readonly total: Minor;
  /** Never more than this, once it is agreed to. */
  readonly ceiling: Minor;
}

/** `sheet`: the input's own. */
export function packagePrices(input: EstimateInput, sheet: Sheet): PackagePrice[] {
  const known = new Set(sheet.options.map(({ id }) => id));
  return (input.paperwork?.packages ?? []).map(({ name, options: named }) => {
    const options = named.filter((id) => known.has(id));
    const priced = pricedSet(input, { chosen: options, struck: [] }, sheet);
    if ("is" in priced) throw new Error(`Option ${priced.id} is on the sheet and not in the input.`);
    return { name, options, total: priced.sheet.totals.total, ceiling: neverMore(priced.sheet) };
  });
}

/** Exactly these options. */
export const isSet = (options: readonly string[], chosen: readonly string[]): boolean =>
  options.length === chosen.length && options.every((id) => chosen.includes(id));
