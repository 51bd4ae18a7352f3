/** What changed between two revisions: `apply(a, difference(a, b))` is b, value for value. */
import type { EstimateInput, WorkItem } from "../input.js";
import { same } from "./canonical.js";

export type ContextKey = Exclude<keyof EstimateInput, "items" | "schema">;

export interface Difference {
  readonly added: readonly WorkItem[];
  readonly dropped: readonly WorkItem[];
  readonly changed: readonly { readonly before: WorkItem; readonly after: WorkItem }[];
  /** Ids of the later revision's items, in order. */
  readonly order: readonly string[];
  readonly context: { readonly [K in ContextKey]?: { readonly before: EstimateInput[K]; readonly after: EstimateInput[K] } };
}

const CONTEXT: readonly ContextKey[] = [
  "asOf",
  "currency",
  "unit",
  "map",
  "boards",
  "alreadyOpen",
  "kinds",
  "offers",
  "rateBook",
  "policy",
  "paperwork",
];

export function difference(before: EstimateInput, after: EstimateInput): Difference {
  const earlier = new Map(before.items.map((item) => [item.id, item]));
  const later = new Map(after.items.map((item) => [item.id, item]));
  return {
    added: after.items.filter((item) => !earlier.has(item.id)),
    dropped: before.items.filter((item) => !later.has(item.id)),
    changed: before.items.flatMap((item) => {
      const next = later.get(item.id);
      return next && !same(item, next) ? [{ before: item, after: next }] : [];
    }),
    order: after.items.map((item) => item.id),
    context: Object.fromEntries(
      CONTEXT.filter((key) => !same(before[key], after[key])).map((key) => [key, { before: before[key], after: after[key] }]),
    ),
  };
}

export function apply(before: EstimateInput, change: Difference): EstimateInput {
  const items = new Map(before.items.map((item) => [item.id, item]));
  for (const { id } of change.dropped) items.delete(id);
  for (const { after } of change.changed) items.set(after.id, after);
  for (const item of change.added) items.set(item.id, item);
  return withContext({ ...before, items: change.order.map((id) => items.get(id)!) }, change, CONTEXT);
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
