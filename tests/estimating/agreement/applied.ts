/** The other way round of `difference`: what it is held against. */
import { type Difference, withContext } from "../../../src/estimating/agreement/difference.js";
import type { EstimateInput } from "../../../src/estimating/input.js";

export function applied(before: EstimateInput, change: Difference): EstimateInput {
  const items = new Map(before.items.map((item) => [item.id, item]));
  for (const { id } of change.dropped) items.delete(id);
  for (const { after } of change.changed) items.set(after.id, after);
  for (const item of change.added) items.set(item.id, item);
  const keys = Object.keys(change.context) as (keyof Difference["context"])[];
  return withContext({ ...before, items: change.order.map((id) => items.get(id)!) }, change, keys);
}
