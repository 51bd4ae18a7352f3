/** Prices what the work consumes: part lines, scarcity margin lines, freight, the work of pulling donor parts, and warnings. */

import { known } from "../book.js";
import type { IsoDate } from "../input.js";
import { timesOver } from "../money/rounding.js";
import type { Adjustment, Line, PartResult, Warning } from "../sheet.js";
import { type Catalogue, daysBetween, type PartsContext, readCatalogue } from "./catalogue.js";
import { E4, type FreightPaid, freightCharges, type Lot, payFreight } from "./lot.js";
import { minimumCharged, type PullWork, partLines, withUniqueIds } from "./partLines.js";
import { type PartNeed, pullMinutes, type Supply, supplyPart } from "./supply.js";

export type { PartsContext } from "./catalogue.js";
export type { PartNeed } from "./supply.js";

export interface PartsPrice {
  readonly lines: readonly Line[];
  /** One for each way a part is got; their `needed` sums to the count of the needs. */
  readonly results: readonly PartResult[];
  readonly freight: readonly Adjustment[];
  readonly pulls: readonly PullWork[];
  readonly warnings: readonly Warning[];
}

/** The same for many sets of needs in one context, as each option is a set of its own: what stays the same is worked out once. */
export function partsPricer(context: PartsContext): (needs: readonly PartNeed[]) => PartsPrice {
  const catalogue = readCatalogue(context);
  const ready = new Map<string, Printed[]>();
  // A supply depends on the need and on the freight paid before it, and on nothing else that changes.
  const printedFor = (need: PartNeed, paid: FreightPaid, before: string, shelf: Map<string, number>): Printed => {
    const kind = need.kind ?? "";
    const taken = shelf.get(kind) ?? 0;
    const freight = taken === 0 ? before : `${before} ${taken}`;
    const printed = printedAfter(need, need.behind ? new Map(paid) : paid, freight, taken);
    // A need that buys has emptied the shelf.
    for (const lot of printed.lots) shelf.set(kind, (shelf.get(kind) ?? 0) + lot.pieces);
    return printed;
  };
  const printedAfter = (need: PartNeed, paid: FreightPaid, freight: string, taken: number): Printed => {
    const variants = ready.get(keyOf(need)) ?? [];
    const before = variants.find((printed) => printed.freight === freight && sameNeed(printed.need, need));
    if (before) {
      payFreight(before.lots, paid);
      return before;
    }
    const printed = { ...print(supplyPart(need, catalogue, context, paid, taken), catalogue, context), need, freight };
    ready.set(keyOf(need), [...variants, printed]);
    return printed;
  };
  return (needs) => {
    const paid: FreightPaid = new Map();
    const shelf = new Map<string, number>();
    let [sum, freight] = [0, ""];
    const supplies = inCatalogueOrder(merge(needs), catalogue).map((need) => {
      const printed = printedFor(need, paid, freight, shelf);
      // What a source is paid only grows, so the same sum is the same freight.
      const now = [...paid.values()].reduce((total, { amount }) => total + amount, 0);
      if (now !== sum) [sum, freight] = [now, JSON.stringify([...paid].map(([source, { amount }]) => [source, amount]))];
      return printed;
    });
    return {
      lines: withUniqueIds(supplies.flatMap(({ lines }) => lines)),
      results: supplies.flatMap((supply) => supply.results),
      freight: freightCharges(paid, context.rateBook.tax.freight),
      pulls: supplies.flatMap((supply) => supply.pulls),
      warnings: supplies.flatMap((supply) => supply.warnings),
    };
  };
}

/** What one supply puts on the sheet, and the lots whose freight it pays. */
interface Printed extends Omit<PartsPrice, "freight"> {
  readonly need: PartNeed;
  /** Paid before it. */
  readonly freight: string;
  readonly lots: readonly Lot[];
}

const print = (supply: Supply, { types }: Catalogue, { rateBook, asOf }: PartsContext) => ({
  lots: supply.lots.map(({ lot }) => lot),
  lines: supply.need.behind ? [] : partLines(supply, known(types, supply.type.id).at, rateBook.tax),
  results: results(supply),
  pulls: pulls(supply),
  warnings: [...warnings(supply, asOf, rateBook.parts.offerGoodForDays)],
});

const keyOf = ({ type, kind, price, behind, items }: PartNeed): string =>
  `${kind === undefined ? `type ${type}` : `kind ${kind}`}${behind ? " behind" : price ? ` at ${items[0]}` : ""}`;

const sameNeed = (a: PartNeed, b: PartNeed): boolean =>
  a.count === b.count && a.items.length === b.items.length && a.items.every((item, at) => item === b.items[at]);

/** Needs of one part are priced together. */
function merge(needs: readonly PartNeed[]): PartNeed[] {
  const merged = new Map<string, PartNeed>();
  for (const need of needs) {
    const { count, items } = merged.get(keyOf(need)) ?? { count: 0, items: [] };
    const all = items.length === 0 ? need.items : [...new Set([...items, ...need.items])];
    merged.set(keyOf(need), { ...need, count: count + need.count, items: [...all].sort() });
  }
  return [...merged.values()].filter(({ count }) => count > 0);
}

function inCatalogueOrder(needs: readonly PartNeed[], { types, kinds }: Catalogue): PartNeed[] {
  const kindAt = ({ kind }: PartNeed) => (kind === undefined ? -1 : known(kinds, kind).at);
  const behind = (need: PartNeed) => Number(need.behind ?? false);
  return [...needs].sort(
    (a, b) => behind(a) - behind(b) || known(types, a.type).at - known(types, b.type).at || kindAt(a) - kindAt(b),
  );
}

const results = ({ need, part, scarcity, because, lots }: Supply): PartResult[] =>
  lots.map(({ lot: { way, offer, pieces, charged }, cost, markUpPercent }) => ({
    ...part,
    needed: pieces,
    charged: need.behind ? 0 : charged,
    scarcity,
    because,
    ...(way === "offer" && offer && { offer: offer.id, source: offer.source }),
    leadDays: need.price?.leadDays ?? (way === "stock" ? 0 : (offer?.leadDays ?? 0)),
    cost,
    markUpPercent,
  }));

const pulls = ({ part, need, lots }: Supply): PullWork[] =>
  lots.flatMap(({ lot }) => {
    const minutes = pullMinutes(lot);
    if (!lot.offer || minutes === 0) return [];
    const { id, source, on } = lot.offer;
    return [{ part, offer: id, source, on, items: need.items, count: lot.pieces, minutes, ...(need.behind && { behind: true }) }];
  });

function* warnings({ part, need, lots, short }: Supply, asOf: IsoDate, goodForDays: number): Generator<Warning> {
  for (const offer of new Set(lots.map(({ lot }) => lot.offer))) {
    const days = offer ? daysBetween(offer.on, asOf) : 0;
    if (offer && days > goodForDays) yield { is: "old offer", offer: offer.id, part: part.name, on: offer.on, days };
  }
  for (const { lot, unitPriceE4, amount } of lots) {
    const least = minimumCharged(lot);
    const source = lot.offer?.source ?? "";
    const unused = amount - timesOver(lot.pieces, unitPriceE4, E4);
    if (least) yield { is: "minimum order", part: part.name, source, ...least, amount, unused };
  }
  if (short > 0) yield { is: "not enough offered", part: part.name, needed: need.count, offered: need.count - short };
}
