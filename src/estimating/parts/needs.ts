/** What the work consumes, one need for each part kind or type, in rate book and catalogue order. */
import type { ReadItem } from "../labour/readItem.js";
import type { PartNeed } from "./priceParts.js";

export function needsOf(items: readonly ReadItem[]): PartNeed[] {
  const needs = new Map<string, { type: string; kind?: string; count: number; items: string[] }>();
  for (const { item, part } of items) {
    if (!part) continue;
    const key = part.kind ? `kind ${part.kind.id}` : `type ${part.type.is.id}`;
    const need = needs.get(key);
    if (need) {
      need.count += item.count;
      need.items.push(item.id);
    } else
      needs.set(key, { type: part.type.is.id, ...(part.kind && { kind: part.kind.id }), count: item.count, items: [item.id] });
  }
  return [...needs.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, need]) => need);
}
