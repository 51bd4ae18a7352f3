/** What options, possible work and work worth doing would add. A group's price is a difference of two whole estimates, with it and without it, everything else as chosen; never a sum of lines. */
import type { Minor, WorkItem, WorthDoing } from "../input.js";
import { type Group, nameOf } from "../labour/groups.js";
import type { ReadItem } from "../labour/readItem.js";
import { fromMilli } from "../money/scales.js";
import { milliReckoned, price, priceWith } from "../pricing/price.js";
import { isFixed, quotedTotals } from "../pricing/quote.js";
import { type Priced, readThought, type Visit, type Workings } from "../pricing/workings.js";
import { behindOf } from "../resolve.js";
import type { GroupPrice, Suggestion, Totals } from "../sheet.js";

/** `base`: as counted; `totals`: as quoted. Possible work is covered by a fixed price. */
export function groupPrice({ id, ids, items }: Group, base: Priced, totals: Totals, workings: Workings): GroupPrice {
  const certainty = items[0]!.item.certainty;
  const within = certainty.is === "optional" && certainty.chosen;
  const other = within ? price(workings, without(base.items, items), base.visit, true) : priceWith(base, items, workings);
  const [more, less] = within ? [base, other] : [other, base];
  const covered = certainty.is === "if found" && isFixed(base.visit.policy);
  const others = covered ? totals : quotedTotals(other, workings);
  const sign = within ? -1 : 1;
  const reason = items.find(({ item }) => item.reason)?.item.reason;
  return {
    id,
    items: ids,
    names: items.filter(({ item }) => behindOf(item) === undefined).map((read) => nameOf(read, workings)),
    ...(reason && { reason }),
    ...(certainty.is === "if found" && { probability: certainty.probability }),
    ...(certainty.is === "optional" && { chosen: certainty.chosen }),
    ...(certainty.is === "optional" && certainty.refused !== undefined && { refused: certainty.refused }),
    price: sign * (others.total - totals.total) + 0,
    net: sign * (others.withoutTax - totals.withoutTax) + 0,
    minutes: fromMilli(milliReckoned(more, workings.rateBook) - milliReckoned(less, workings.rateBook)),
    ...(covered && { covered }),
  };
}

/** What charging one more item adds to the total, tax included. */
const marginalPrice = (read: ReadItem, base: Priced, workings: Workings): Minor =>
  price(workings, [...base.items, read], base.visit, true).totals.total - base.totals.total;

function without(items: readonly ReadItem[], left: readonly ReadItem[]): ReadItem[] {
  const out = new Set(left);
  return items.filter((read) => !out.has(read));
}

/** A later visit: everything closed, no fees, no terms of today. */
const LATER: Visit = { boards: [], toOpen: [], open: new Set(), policy: {} };

/**
 * Work worth doing while an assembly is open: its price now, and at a later visit that must open the unit again. For the assemblies that are off or come off, in map order; not for what is an item already. Prices include tax.
 */
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
