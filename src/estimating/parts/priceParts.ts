/** Prices what the work consumes: part lines, scarcity margin lines, freight, the work of pulling donor parts, and warnings. */
import { known } from "../book.js";
import type { IsoDate, Minutes } from "../input.js";
import type { Adjustment, Line, PartResult, Warning } from "../sheet.js";
import { type Catalogue, type PartsContext, readCatalogue } from "./catalogue.js";
import { type FreightPaid, freightCharges, payFreight } from "./freight.js";
import { daysBetween } from "./offers.js";
import { partLines, withUniqueIds } from "./partLines.js";
import { type PartNeed, pullMinutes, type Supply, supplyPart } from "./supply.js";

export type { PartsContext } from "./catalogue.js";
export type { PartNeed } from "./supply.js";

/** Labour to pull donor parts, to be charged at the labour class of access. */
export interface PullWork {
  readonly part: NonNullable<Line["part"]>;
  /** Id of the offer. */
  readonly offer: string;
  readonly source: string;
  readonly on: IsoDate;
  readonly items: readonly string[];
  readonly count: number;
  readonly minutes: Minutes;
}

export interface PartsPrice {
  readonly lines: readonly Line[];
  /** One for each way a part is got; their `needed` sums to the count of the needs. */
  readonly results: readonly PartResult[];
  readonly freight: readonly Adjustment[];
  readonly pulls: readonly PullWork[];
  readonly warnings: readonly Warning[];
}

/** The order of the needs and of the offers does not matter. Throws on a type or kind that is not known. */
export const priceParts = (needs: readonly PartNeed[], context: PartsContext): PartsPrice => partsPricer(context)(needs);

/** The same for many sets of needs in one context, as each option is a set of its own: the catalogue is read once, each supply chosen once. */
export function partsPricer(context: PartsContext): (needs: readonly PartNeed[]) => PartsPrice {
  const { rateBook, asOf } = context;
  const catalogue = readCatalogue(context);
  const supply = supplier(catalogue, context);
  return (needs) => {
    const paid: FreightPaid = new Map();
    const supplies = inCatalogueOrder(merge(needs), catalogue).map((need) => supply(need, paid));
    return {
      lines: withUniqueIds(supplies.flatMap((each) => partLines(each, known(catalogue.types, each.type.id).at, rateBook.tax))),
      results: supplies.flatMap(results),
      freight: freightCharges(paid, rateBook.tax.freight),
      pulls: supplies.flatMap(pulls),
      warnings: supplies.flatMap((each) => [...warnings(each, asOf, rateBook.parts.offerGoodForDays)]),
    };
  };
}

/** A supply depends on the need and on the freight paid so far, and on nothing else that changes. */
function supplier(catalogue: Catalogue, context: PartsContext): (need: PartNeed, paid: FreightPaid) => Supply {
  const chosen = new Map<string, Supply>();
  return (need, paid) => {
    const freight = [...paid].map(([source, { amount }]) => [source, amount]);
    const key = JSON.stringify([need.type, need.kind, need.count, freight]);
    const before = chosen.get(key);
    if (before) {
      payFreight(
        before.lots.map(({ lot }) => lot),
        paid,
      );
      return { ...before, need };
    }
    const supply = supplyPart(need, catalogue, context, paid);
    chosen.set(key, supply);
    return supply;
  };
}

/** Needs of one part are priced together. */
function merge(needs: readonly PartNeed[]): PartNeed[] {
  const merged = new Map<string, PartNeed>();
  for (const need of needs) {
    const key = JSON.stringify([need.type, need.kind]);
    const { count, items } = merged.get(key) ?? { count: 0, items: [] };
    merged.set(key, { ...need, count: count + need.count, items: [...new Set([...items, ...need.items])].sort() });
  }
  return [...merged.values()].filter(({ count }) => count > 0);
}

function inCatalogueOrder(needs: readonly PartNeed[], { types, kinds }: Catalogue): PartNeed[] {
  const kindAt = ({ kind }: PartNeed) => (kind === undefined ? -1 : known(kinds, kind).at);
  return [...needs].sort((a, b) => known(types, a.type).at - known(types, b.type).at || kindAt(a) - kindAt(b));
}

const results = ({ part, scarcity, because, lots }: Supply): PartResult[] =>
  lots.map(({ lot: { way, offer, pieces, charged }, cost, markUpPercent }) => ({
    ...part,
    needed: pieces,
    charged,
    scarcity,
    because,
    ...(way === "offer" && offer && { offer: offer.id, source: offer.source }),
    leadDays: way === "stock" ? 0 : (offer?.leadDays ?? 0),
    cost,
    markUpPercent,
  }));

const pulls = ({ part, need, lots }: Supply): PullWork[] =>
  lots.flatMap(({ lot }) => {
    const minutes = pullMinutes(lot);
    if (!lot.offer || minutes === 0) return [];
    const { id, source, on } = lot.offer;
    return [{ part, offer: id, source, on, items: need.items, count: lot.pieces, minutes }];
  });

function* warnings({ part, need, lots, short }: Supply, asOf: IsoDate, goodForDays: number): Generator<Warning> {
  for (const offer of new Set(lots.map(({ lot }) => lot.offer))) {
    const days = offer ? daysBetween(offer.on, asOf) : 0;
    if (offer && days > goodForDays) yield { is: "old offer", offer: offer.id, part: part.name, on: offer.on, days };
  }
  if (short > 0) yield { is: "not enough offered", part: part.name, needed: need.count, offered: need.count - short };
}
