/** Items that are charged or not as one: those of one group, or an item alone. */
import type { Certainty } from "../input.js";
import type { ReadItem } from "../labour/readItem.js";

export interface Group {
  readonly id: string;
  readonly items: readonly ReadItem[];
}

/** Planned work, and options that are chosen. */
export const isCharged = ({ item: { certainty } }: ReadItem): boolean =>
  certainty.is === "planned" || (certainty.is === "optional" && certainty.chosen);

/** Agreed in advance, charged only if needed. */
export const isPossible = ({ item }: ReadItem): boolean => item.certainty.is === "if found";

/** In the order of their first items. */
export function groupsOf(items: readonly ReadItem[], is: "if found" | "optional"): Group[] {
  const groups = new Map<string, { id: string; items: ReadItem[] }>();
  for (const read of items) {
    const certainty: Certainty = read.item.certainty;
    if (certainty.is === "planned" || certainty.is !== is) continue;
    const key = certainty.group === undefined ? `item ${read.item.id}` : `group ${certainty.group}`;
    const group = groups.get(key);
    if (group) group.items.push(read);
    else groups.set(key, { id: certainty.group ?? read.item.id, items: [read] });
  }
  return [...groups.values()];
}
