/** What the work consumes, one need for each part kind or type. */
import type { ItemPart, ReadItem } from "../labour/readItem.js";
import type { PartNeed } from "./priceParts.js";

export function needsOf(items: readonly ReadItem[]): PartNeed[] {
  const needs = new Map<ItemPart, { type: string; kind?: string; count: number; items: string[] }>();
  for (const { item, takes } of items) {
    const { part } = takes;
    if (!part) continue;
    const need = needs.get(part);
    if (need) {
      need.count += item.count;
      need.items.push(item.id);
    } else
      needs.set(part, {
        type: part.type.is.id,
        ...(part.kind && { kind: part.kind.id }),
        count: item.count,
        items: [item.id],
      });
  }
  return [...needs.values()];
}
