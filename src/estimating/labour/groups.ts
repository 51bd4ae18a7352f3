/** Items that are charged or not as one: those of one group, or an item alone. */
import type { WorkItem } from "../input.js";
import type { LabourContext } from "./labourLine.js";
import type { ReadItem } from "./readItem.js";

export interface Group {
  readonly id: string;
  /** All its items, those of no count among them: they are chosen together. */
  readonly ids: readonly string[];
  /** Those with something to do. */
  readonly items: readonly ReadItem[];
}

/** Planned work, and options that are chosen. */
export const isCharged = ({ item: { certainty } }: { readonly item: Pick<WorkItem, "certainty"> }): boolean =>
  certainty.is === "planned" || (certainty.is === "optional" && certainty.chosen);

/** Agreed in advance, charged only if needed. */
export const isPossible = ({ item }: ReadItem): boolean => item.certainty.is === "if found";

/** In the order of their first items; a group with nothing to do is none. `all`: the items of the input. */
export function groupsOf(read: readonly ReadItem[], all: readonly WorkItem[], is: "if found" | "optional"): Group[] {
  const groups = new Map<string, { id: string; ids: string[]; items: ReadItem[] }>();
  for (const { id, certainty } of all) {
    if (certainty.is !== is) continue;
    const group = groups.get(keyOf({ id, certainty })) ?? { id: groupOf({ id, certainty }) ?? id, ids: [], items: [] };
    group.ids.push(id);
    groups.set(keyOf({ id, certainty }), group);
  }
  for (const each of read) if (each.item.certainty.is === is) groups.get(keyOf(each.item))!.items.push(each);
  return [...groups.values()].filter(({ items }) => items.length > 0);
}

/** How many groups there are, of options and of what may be found. */
export const countGroups = (items: readonly WorkItem[]): number =>
  new Set(items.filter(({ certainty }) => certainty.is !== "planned").map((item) => `${item.certainty.is} ${keyOf(item)}`)).size;

type Sided = Pick<WorkItem, "id" | "certainty">;

const groupOf = ({ certainty }: Sided): string | undefined => (certainty.is === "planned" ? undefined : certainty.group);

/** An item and a group may have the same name. */
function keyOf(item: Sided): string {
  const group = groupOf(item);
  return group === undefined ? `item ${item.id}` : `group ${group}`;
}

/** What a person calls an item. */
export function nameOf({ item, place, takes }: ReadItem, { map }: Pick<LabourContext, "map">): string {
  const { operation, part } = takes;
  const where = place === undefined ? "" : `${map.assemblies[place]!.name}: `;
  const what = part ? `, ${part.name}` : "";
  return `${where}${operation.is.name}${what}${item.count > 1 ? ` × ${item.count}` : ""}`;
}
