/** What changed between two revisions: `apply(a, difference(a, b))` is b, value for value. Item ids must be unique in each. */
import type { EstimateInput, WorkItem } from "../input.js";
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
