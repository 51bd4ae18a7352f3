/** What of the lines is each work item's own. Openings, billed steps and fees are nobody's own: with them it makes `totals.linesNet`. */
import type { Minor, WorkItem } from "../input.js";
import { split } from "../money/split.js";
import type { Sheet } from "../sheet.js";

/** By work item: its labour, and by count its share of the lines of parts, in minor units, as the lines have it. */
export function ownAmounts({ lines }: Sheet, items: readonly WorkItem[]): ReadonlyMap<string, Minor> {
  const counts = new Map(items.map(({ id, count }) => [id, count]));
  const own = new Map<string, Minor>();
  for (const { amount, from } of lines) {
    const ids = from.flatMap((source) => (source.is === "item" ? [source.id] : []));
    const shares = split(
      amount,
      ids.map((id) => counts.get(id) ?? 0),
    );
    for (const [at, id] of ids.entries()) own.set(id, (own.get(id) ?? 0) + shares[at]!);
  }
  return own;
}
