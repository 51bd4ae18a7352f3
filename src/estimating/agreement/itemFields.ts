/** Which fields of a work item differ between two revisions, named as a person reads them. */
import type { Certainty, EstimateInput, Minor, Minutes, ThreePoint, WorkItem } from "../input.js";
import { same } from "./canonical.js";

interface Pair<T> {
  readonly before?: T;
  readonly after?: T;
}

export type FieldChange =
  | ({ readonly field: "assembly" | "operation" | "part" | "reason" } & Pair<string>)
  | ({ readonly field: "count" } & Pair<number>)
  | ({ readonly field: "certainty" } & Pair<Certainty>)
  | ({ readonly field: "time each" } & Pair<ThreePoint>)
  /** What is fitted now; it is compared, never priced. */
  | { readonly field: "original" }
  | ({ readonly field: "minutes" } & Pair<Minutes>)
  /** Ten-thousandths of a minor unit. */
  | ({ readonly field: "unit price" } & Pair<number>)
  | ({ readonly field: "amount" } & Pair<Minor>);

/** Empty when nothing differs. Names come from each revision's own map, rate book and catalogue. */
export function itemFields(before: WorkItem, after: WorkItem, was: EstimateInput, is: EstimateInput): FieldChange[] {
  const text = (field: "assembly" | "operation" | "part" | "reason", a: string | undefined, b: string | undefined) => ({
    field,
    ...pair(a, b),
  });
  return [
    ...(before.assembly === after.assembly ? [] : [text("assembly", assemblyName(before, was), assemblyName(after, is))]),
    ...(before.operation === after.operation ? [] : [text("operation", operationName(before, was), operationName(after, is))]),
    ...(same(before.part, after.part) ? [] : [text("part", partName(before, was), partName(after, is))]),
    ...(before.count === after.count ? [] : [{ field: "count", ...pair(before.count, after.count) } as const]),
    ...(same(before.certainty, after.certainty)
      ? []
      : [{ field: "certainty", ...pair(before.certainty, after.certainty) } as const]),
    ...(same(before.minutes, after.minutes) ? [] : [{ field: "time each", ...pair(before.minutes, after.minutes) } as const]),
    ...(same(before.original, after.original) ? [] : [{ field: "original" } as const]),
    ...(before.reason === after.reason ? [] : [text("reason", before.reason, after.reason)]),
  ];
}

export function pair<T>(before: T | undefined, after: T | undefined): Pair<T> {
  return { ...(before !== undefined && { before }), ...(after !== undefined && { after }) };
}

const named = (list: readonly { readonly id: string; readonly name: string }[] | undefined, id: string | undefined) =>
  list?.find((entry) => entry.id === id)?.name ?? id;

const assemblyName = ({ assembly }: WorkItem, { map }: EstimateInput) => named(map?.assemblies, assembly);
const operationName = ({ operation }: WorkItem, { rateBook }: EstimateInput) => named(rateBook.operations, operation);
const partName = ({ part }: WorkItem, { kinds, rateBook }: EstimateInput) =>
  part === undefined ? undefined : "kind" in part ? named(kinds, part.kind) : named(rateBook.partTypes, part.type);
