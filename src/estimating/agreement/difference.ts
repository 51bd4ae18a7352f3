/** What changed between two revisions: a with its difference to b applied is b, value for value. Item ids must be unique in each. */
import type { Certainty, EstimateInput, Minor, Minutes, ThreePoint, WorkItem } from "../input.js";
import { operationIdOf, ownPartOf } from "../resolve.js";
import { same } from "./canonical.js";

export type ContextKey = Exclude<keyof EstimateInput, "items" | "schema">;

/** A part that is not there is left out, so a difference survives being stored as JSON. */
export interface Difference {
  readonly added: readonly WorkItem[];
  readonly dropped: readonly WorkItem[];
  readonly changed: readonly { readonly before: WorkItem; readonly after: WorkItem }[];
  /** Ids of the later revision's items, in order. */
  readonly order: readonly string[];
  readonly context: {
    readonly [K in ContextKey]?: {
      readonly before?: NonNullable<EstimateInput[K]>;
      readonly after?: NonNullable<EstimateInput[K]>;
    };
  };
}

/** Held complete by the compiler. */
const CONTEXT: Readonly<Record<ContextKey, true>> = {
  asOf: true,
  currency: true,
  unit: true,
  map: true,
  boards: true,
  alreadyOpen: true,
  openAtNoCharge: true,
  toOpen: true,
  kinds: true,
  offers: true,
  exchange: true,
  rateBook: true,
  policy: true,
  paperwork: true,
};
const CONTEXT_KEYS = Object.keys(CONTEXT) as ContextKey[];

export function difference(before: EstimateInput, after: EstimateInput): Difference {
  const earlier = new Map(before.items.map((item) => [item.id, item]));
  const later = new Map(after.items.map((item) => [item.id, item]));
  const sides = (key: ContextKey) => ({
    ...(before[key] !== undefined && { before: before[key] }),
    ...(after[key] !== undefined && { after: after[key] }),
  });
  return {
    added: after.items.filter((item) => !earlier.has(item.id)),
    dropped: before.items.filter((item) => !later.has(item.id)),
    changed: before.items.flatMap((item) => {
      const next = later.get(item.id);
      return next && !same(item, next) ? [{ before: item, after: next }] : [];
    }),
    order: after.items.map((item) => item.id),
    context: Object.fromEntries(CONTEXT_KEYS.filter((key) => !same(before[key], after[key])).map((key) => [key, sides(key)])),
  };
}

/** The earlier input with the named context parts of the later one. */
export function withContext(input: EstimateInput, change: Difference, keys: readonly ContextKey[]): EstimateInput {
  const next: Record<string, unknown> = { ...input };
  for (const key of keys) {
    const part = change.context[key];
    if (!part) continue;
    if (part.after === undefined) delete next[key];
    else next[key] = part.after;
  }
  return next as unknown as EstimateInput;
}

interface Pair<T> {
  readonly before?: T;
  readonly after?: T;
}

export type FieldChange =
  | ({ readonly field: "assembly" | "operation" | "part" | "reason" | "labour class" } & Pair<string>)
  | ({ readonly field: "count" } & Pair<number>)
  | ({ readonly field: "certainty" } & Pair<Certainty>)
  | ({ readonly field: "time each" } & Pair<ThreePoint>)
  /** What is fitted now; it is compared, never priced. Of a part, what the shop pays and where it gets it is on no owner's paper. */
  | { readonly field: "original" | "part price" | "part source" }
  /** What work in own words costs, whatever it takes. */
  | ({ readonly field: "fixed price" } & Pair<Minor>)
  | ({ readonly field: "minutes" } & Pair<Minutes>)
  /** Ten-thousandths of a minor unit. */
  | ({ readonly field: "unit price" } & Pair<number>)
  | ({ readonly field: "amount" } & Pair<Minor>);

/** Which fields of a work item differ, named as a person reads them; empty when nothing does. Names come from each revision's own map, rate book and catalogue. */
export function itemFields(before: WorkItem, after: WorkItem, was: EstimateInput, is: EstimateInput): FieldChange[] {
  const text = (
    field: "assembly" | "operation" | "part" | "reason" | "labour class",
    a: string | undefined,
    b: string | undefined,
  ) => ({
    field,
    ...pair(a, b),
  });
  return [
    ...(before.assembly === after.assembly ? [] : [text("assembly", assemblyName(before, was), assemblyName(after, is))]),
    ...(operationIdOf(before) === operationIdOf(after) && before.own?.name === after.own?.name
      ? []
      : [text("operation", operationName(before, was), operationName(after, is))]),
    ...partFields(before, after, was, is),
    ...(before.count === after.count ? [] : [{ field: "count", ...pair(before.count, after.count) } as const]),
    ...(same(before.certainty, after.certainty)
      ? []
      : [{ field: "certainty", ...pair(before.certainty, after.certainty) } as const]),
    ...(same(timeOf(before), timeOf(after)) ? [] : [{ field: "time each", ...pair(timeOf(before), timeOf(after)) } as const]),
    ...(before.own?.price === after.own?.price
      ? []
      : [{ field: "fixed price", ...pair(before.own?.price, after.own?.price) } as const]),
    ...(before.own?.labourClass === after.own?.labourClass
      ? []
      : [text("labour class", labourName(before, was), labourName(after, is))]),
    ...(same(before.original, after.original) ? [] : [{ field: "original" } as const]),
    ...(before.reason === after.reason ? [] : [text("reason", before.reason, after.reason)]),
  ];
}

const timeOf = ({ minutes, own }: WorkItem): ThreePoint | undefined => minutes ?? own?.minutes;
const labourName = ({ own }: WorkItem, { rateBook }: EstimateInput) => named(rateBook.labourClasses, own?.labourClass);

function partFields(before: WorkItem, after: WorkItem, was: EstimateInput, is: EstimateInput): FieldChange[] {
  const [a, b] = [ownPartOf(before), ownPartOf(after)];
  const [called, calls] = [partName(before, was), partName(after, is)];
  const other = a && b ? a.name !== b.name : !same(before.part, after.part);
  // Another part has another price and source, and needs no further word.
  if (other) return [{ field: "part", ...pair(called, calls) }];
  const { cost, name: _, ...rest } = a ?? { name: "" };
  const { cost: costs, name: __, ...rests } = b ?? { name: "" };
  return [
    ...(cost === costs && same(before.partPrice, after.partPrice) ? [] : [{ field: "part price" } as const]),
    ...(same(rest, rests) ? [] : [{ field: "part source" } as const]),
  ];
}

export function pair<T>(before: T | undefined, after: T | undefined): Pair<T> {
  return { ...(before !== undefined && { before }), ...(after !== undefined && { after }) };
}

const named = (list: readonly { readonly id: string; readonly name: string }[] | undefined, id: string | undefined) =>
  list?.find((entry) => entry.id === id)?.name ?? id;

/** Place, work, part and count of a work item, as a person calls them. */
export function workName(item: WorkItem, input: EstimateInput): string {
  const [place, part] = [assemblyName(item, input), partName(item, input)];
  const what = `${operationName(item, input)}${part === undefined ? "" : `, ${part}`}`;
  return `${place === undefined ? "" : `${place}: `}${what}${item.count > 1 ? ` × ${item.count}` : ""}`;
}

const assemblyName = ({ assembly }: WorkItem, { map }: EstimateInput) => named(map?.assemblies, assembly);
const operationName = ({ operation, own, service }: WorkItem, { rateBook }: EstimateInput) =>
  own?.name ?? (service === undefined ? named(rateBook.operations, operation) : named(rateBook.services, service));
const partName = (item: WorkItem, { kinds, rateBook }: EstimateInput) => {
  const { part } = item;
  const own = ownPartOf(item);
  if (own) return own.name;
  if (part === undefined || "own" in part) return undefined;
  return "kind" in part ? named(kinds, part.kind) : named(rateBook.partTypes, part.type);
};
