/**
 * Set-up is once per assembly and operation. Work on the unit as a whole is set up on each board that is counted or named
 * to be opened, at least once, and never more often than its count. It stands on the line whose item id sorts first.
 */
import type { ReadItem } from "./readItem.js";

/** How many set-ups each item bears; items that bear none are left out. `boards`: counted, or named to be opened. */
export function setupsOf(items: readonly ReadItem[], boards: number): ReadonlyMap<ReadItem, number> {
  const shared = new Map<number, { first: ReadItem; count: number }>();
  for (const read of items) {
    const before = shared.get(read.setupKey);
    if (!before) shared.set(read.setupKey, { first: read, count: read.item.count });
    else {
      before.count += read.item.count;
      if (read.rank < before.first.rank) before.first = read;
    }
  }
  return new Map(
    [...shared.values()].map(({ first, count }) => [first, first.place === undefined ? Math.min(count, Math.max(1, boards)) : 1]),
  );
}
