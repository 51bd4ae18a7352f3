import type { EstimateInput, WorkItem } from "../estimating/input.js";

/** 'Voice board: Replace, electrolytic capacitor × 12', by the names of the input itself. */
export function workTitle({ assembly, operation, part, count }: WorkItem, { map, rateBook, kinds }: EstimateInput): string {
  const place = assembly === undefined ? "" : `${named(map?.assemblies, assembly)}: `;
  const fitted = part === undefined ? "" : `, ${"kind" in part ? named(kinds, part.kind) : named(rateBook.partTypes, part.type)}`;
  return `${place}${named(rateBook.operations, operation)}${fitted}${count > 1 ? ` × ${count}` : ""}`;
}

const named = (list: readonly { readonly id: string; readonly name: string }[] | undefined, id: string): string =>
  list?.find((entry) => entry.id === id)?.name ?? id;
