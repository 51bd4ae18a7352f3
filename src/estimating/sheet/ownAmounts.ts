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

/** By assembly: its opening and its items' own. Under the empty id is the rest: work on the whole unit, billed steps, fees. Together `totals.linesNet`. */
export function placeAmounts(sheet: Sheet, items: readonly WorkItem[]): ReadonlyMap<string, Minor> {
  const own = ownAmounts(sheet, items);
  const places = new Map<string, Minor>();
  let placed = 0;
  const add = (place: string, amount: Minor) => {
    places.set(place, (places.get(place) ?? 0) + amount);
    placed += amount;
  };
  for (const { sort, assembly, amount } of sheet.lines) if (sort === "access" && assembly) add(assembly.id, amount);
  for (const { id, assembly } of items) if (assembly !== undefined) add(assembly, own.get(id) ?? 0);
  return places.set("", sheet.totals.linesNet - placed);
}
