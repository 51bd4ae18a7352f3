import type { EstimateInput } from "../../input.js";

/** The input with what only the current revision has, so that everything in the log has a name. Nothing of it is priced. */
export function withNames(input: EstimateInput, current: EstimateInput = input): EstimateInput {
  if (current === input) return input;
  const joined = <T extends { readonly id: string }>(own: readonly T[] = [], more: readonly T[] = []): T[] => {
    const ids = new Set(own.map(({ id }) => id));
    return [...own, ...more.filter(({ id }) => !ids.has(id))];
  };
  return {
    ...input,
    items: joined(input.items, current.items),
    kinds: joined(input.kinds, current.kinds),
    offers: joined(input.offers, current.offers),
    map: { ...input.map, assemblies: joined(input.map?.assemblies, current.map?.assemblies) },
  };
}
