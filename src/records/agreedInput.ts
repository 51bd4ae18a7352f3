/** An issued input as it was agreed to: with the options chosen and without what was struck out. */
import { unknownChoices, withChoices } from "../estimating/agreement/choices.js";
import type { EstimateInput } from "../estimating/input.js";
import type { AgreedSet } from "./agreements.js";

export function agreedInput(input: EstimateInput, { chosen, struck }: AgreedSet): EstimateInput {
  const out = new Set(struck);
  const { items, ...rest } = withChoices(input, chosen);
  return { ...rest, items: items.filter(({ id }) => !out.has(id)) };
}

/** Work that may be struck out: what is not an option. */
export const strikeable = ({ items }: EstimateInput) =>
  items.filter(({ certainty, count }) => certainty.is !== "optional" && count > 0);

/** Ids the input does not have, or that may not be struck out. */
export function unknownIn(input: EstimateInput, { chosen, struck }: AgreedSet): Partial<Record<"chosen" | "struck", string>> {
  const may = new Set(strikeable(input).map(({ id }) => id));
  const [unknownChoice] = unknownChoices(input, chosen);
  const unknownWork = struck.find((id) => !may.has(id));
  return {
    ...(unknownChoice !== undefined && { chosen: unknownChoice }),
    ...(unknownWork !== undefined && { struck: unknownWork }),
  };
}
