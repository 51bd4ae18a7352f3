/** The owner's choice among the options. A set of options is priced as a set, with what its members share; never summed. */
import type { Certainty, EstimateInput, WorkItem } from "../input.js";

/** An option's id on the sheet: its group, or the item alone. */
const optionOf = ({ id, certainty }: WorkItem): string | undefined =>
  certainty.is === "optional" ? (certainty.group ?? id) : undefined;

/** The input with exactly these options chosen, by their ids on the sheet. Ids it does not have change nothing; see `unknownChoices`. */
export function withChoices(input: EstimateInput, chosen: Iterable<string>): EstimateInput {
  const wanted = new Set(chosen);
  return {
    ...input,
    items: input.items.map((item) => {
      const option = optionOf(item);
      if (option === undefined || item.certainty.is !== "optional") return item;
      return { ...item, certainty: { ...item.certainty, chosen: wanted.has(option) } };
    }),
  };
}

export function unknownChoices(input: EstimateInput, chosen: Iterable<string>): string[] {
  const known = new Set(input.items.map(optionOf));
  return [...new Set(chosen)].filter((id) => !known.has(id));
}

/** The input with work agreed in advance become planned: the groups 'if found' of these ids on the sheet. */
export function withFound(input: EstimateInput, found: Iterable<string>): EstimateInput {
  const wanted = new Set(found);
  const planned: Certainty = { is: "planned" };
  return {
    ...input,
    items: input.items.map((item) =>
      item.certainty.is === "if found" && wanted.has(item.certainty.group ?? item.id) ? { ...item, certainty: planned } : item,
    ),
  };
}
