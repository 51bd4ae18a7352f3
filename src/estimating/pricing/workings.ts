/** All that an estimate needs and that does not depend on which items are charged: worked out once, priced from many times. */
import { type Book, known, readBook } from "../book.js";
import type { BoardCount, EstimateInput, Minor, Policy, WorkItem } from "../input.js";
import { type AccessContext, accessLine, type Opening, openingOf } from "../labour/access.js";
import { groupsOf } from "../labour/groups.js";
import { type ReadItem, readItems } from "../labour/readItem.js";
import type { LabourLine } from "../labour/times.js";
import { type PartNeed, type PartsPrice, partsPricer } from "../parts/priceParts.js";
import { resolve } from "../resolve.js";
import type { Adjustment, Line, Totals } from "../sheet.js";
import { type MapReading, readMap } from "../teardown/map.js";
import { type Ordered, refitOrder, removalOrder } from "../teardown/order.js";
import { type Planner, planner } from "./buyPlans.js";

/** The state of the unit, and the terms, that a set of items is priced for. */
export interface Visit {
  readonly boards: readonly BoardCount[];
  /** Places in the map. */
  readonly toOpen: readonly number[];
  /** Places that are off already. */
  readonly open: ReadonlySet<number>;
  readonly policy: Policy;
}

export interface Priced {
  readonly visit: Visit;
  readonly items: readonly ReadItem[];
  /** Places with work on them, or named to be opened. */
  readonly worked: ReadonlySet<number>;
  /** Places that must be off. */
  readonly off: ReadonlySet<number>;
  /** Of these, the ones still to be opened, in removal order: they are charged. */
  readonly opened: readonly number[];
  readonly access: readonly LabourLine[];
  readonly labour: readonly LabourLine[];
  readonly needs: readonly PartNeed[];
  readonly parts: PartsPrice;
  readonly lines: readonly Line[];
  readonly adjustments: readonly Adjustment[];
  readonly discount: { readonly asked: Minor; readonly given: Minor };
  readonly totals: Totals;
}

export interface Workings extends AccessContext {
  readonly input: EstimateInput;
  readonly book: Book;
  readonly map: MapReading;
  readonly removal: readonly number[];
  readonly refit: readonly number[];
  /** By place in the map; the line of an assembly that comes off, without why. */
  readonly openings: readonly (Opening & { readonly line: LabourLine })[];
  /** Items with something to do, in input order. */
  readonly items: readonly ReadItem[];
  /** How many options there are, chosen or not. */
  readonly options: number;
  readonly parts: (needs: readonly PartNeed[]) => PartsPrice;
  readonly planner: Planner;
  /** A price with one more group, by the price without it and the group's first item: the risk and the group's own price ask for the same. */
  readonly grown: WeakMap<Priced, Map<ReadItem, Priced>>;
}

/** The input must have passed the check. */
export function workingsOf(given: EstimateInput): Workings {
  const input = resolve(given);
  const { rateBook } = input;
  const book = readBook(input);
  const map = readMap(input.map);
  const grade = known(book.grades, input.unit.grade ?? rateBook.grades[0]!.id);
  const accessClass = known(book.classes, rateBook.accessClass);
  const access = { book, map, grade, accessClass, rateBook };
  const removal = checked(removalOrder(map));
  const items = readItems(
    input.items.filter(({ count }) => count > 0),
    map,
    book,
    rateBook,
  );
  return {
    ...access,
    input,
    removal,
    refit: checked(refitOrder(map, removal)),
    openings: map.assemblies.map((assembly) => {
      const opening = openingOf(assembly, access);
      return { ...opening, line: accessLine(assembly, opening, access) };
    }),
    items,
    options: groupsOf(items, input.items, "optional").length,
    parts: partsPricer(input),
    planner: planner(input),
    grown: new WeakMap(),
  };
}

/** Work that is thought of, not asked for: it ranks after every item. */
export function readThought(item: WorkItem, { map, book, rateBook }: Workings): ReadItem {
  return { ...readItems([item], map, book, rateBook)[0]!, rank: Number.POSITIVE_INFINITY };
}

function checked(ordered: Ordered): readonly number[] {
  if (!ordered.ok) throw new Error("A cyclic map was not checked.");
  return ordered.order;
}
