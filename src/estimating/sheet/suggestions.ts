/** Work worth doing while an assembly is open: its price now, and at a later visit that must open the unit again. */
import type { WorkItem, WorthDoing } from "../input.js";
import type { ReadItem } from "../labour/readItem.js";
import { price } from "../pricing/price.js";
import { type Priced, readThought, type Visit, type Workings } from "../pricing/workings.js";
import type { Suggestion } from "../sheet.js";
import { marginalPrice } from "./groupPrice.js";

/** A later visit: everything closed, no fees, no terms of today. */
const LATER: Visit = { boards: [], toOpen: [], open: new Set(), policy: {} };

/** For the assemblies that are off or come off, in map order; not for what is an item already. Prices include tax. */
export function suggestionsFor(workings: Workings, base: Priced): Suggestion[] {
  const { map, book } = workings;
  return map.assemblies.flatMap(({ id, name, worthDoing = [] }, place) => {
    if (!base.off.has(place) && !base.visit.open.has(place)) return [];
    const wanted = worthDoing.filter((work) => work.count > 0 && !isItem(work, place, workings.items));
    return wanted.map((work): Suggestion => {
      const read = readThought(asItem(work, id), workings);
      const operation = book.operations.get(work.operation)!.is;
      return {
        assembly: { id, name },
        operation: { id: operation.id, name: operation.name },
        count: work.count,
        ...(work.partType !== undefined && { partType: work.partType }),
        reason: work.reason,
        now: marginalPrice(read, base, workings),
        later: price(workings, [read], LATER).totals.total,
      };
    });
  });
}

const isItem = ({ operation, partType }: WorthDoing, place: number, items: readonly ReadItem[]): boolean =>
  items.some(
    (read) =>
      read.place === place &&
      read.item.operation === operation &&
      (partType === undefined || read.takes.part?.type.is.id === partType),
  );

const asItem = ({ operation, count, partType, reason }: WorthDoing, assembly: string): WorkItem => ({
  id: "worth doing",
  assembly,
  operation,
  count,
  ...(partType !== undefined && { part: { type: partType } }),
  certainty: { is: "planned" },
  reason,
});
