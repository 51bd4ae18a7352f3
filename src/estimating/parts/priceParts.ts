/** Prices what the work consumes: part lines, scarcity margin lines, freight, the minutes to pull donor parts, and warnings. */
import type { EstimateInput, Minutes, Offer, PartKind, PartType } from "../input.js";
import { fromMilli, percentOf, priceMilli, toMilli } from "../money/scales.js";
import type { Adjustment, Line, PartResult, Source, Warning } from "../sheet.js";
import { chooseLots } from "./choose.js";
import { extraFreight, type FreightPaid, freightCharges, payFreight } from "./freight.js";
import { type Lot, type LotPrice, priceLot } from "./lot.js";
import { byUnitCost, daysBetween, offersFor } from "./offers.js";
import { type ScarcityClass, scarcityOf } from "./scarcity.js";

export interface PartNeed {
  readonly type: string;
  readonly kind?: string;
  readonly count: number;
  /** Ids of the work items that need it. */
  readonly items: readonly string[];
}

export type PartsContext = Pick<EstimateInput, "kinds" | "offers" | "rateBook" | "policy" | "asOf" | "currency">;

/** Labour to pull donor parts: to be charged at the labour class of access. */
export interface PullWork {
  readonly part: NonNullable<Line["part"]>;
  readonly offer: string;
  readonly source: string;
  readonly items: readonly string[];
  readonly count: number;
  readonly minutes: Minutes;
}

export interface PartsPrice {
  readonly lines: readonly Line[];
  /** One for each way a part is got; `needed` sums to the count of the needs. */
  readonly results: readonly PartResult[];
  readonly freight: readonly Adjustment[];
  readonly pulls: readonly PullWork[];
  readonly warnings: readonly Warning[];
}

/** Types and kinds must be known to the rate book and the catalogue. The order of the needs does not matter. */
export function priceParts(needs: readonly PartNeed[], context: PartsContext): PartsPrice {
  const paid: FreightPaid = new Map();
  const priced = inCatalogueOrder(merge(needs), context).map((need) => pricePart(need, context, paid));
  return {
    lines: withUniqueIds(priced.flatMap(({ lines }) => lines)),
    results: priced.flatMap(({ results }) => results),
    freight: freightCharges(paid, context.rateBook.tax.freight),
    pulls: priced.flatMap(({ pulls }) => pulls),
    warnings: priced.flatMap(({ warnings }) => warnings),
  };
}

function pricePart(need: PartNeed, context: PartsContext, paid: FreightPaid): Omit<PartsPrice, "freight"> {
  const { rateBook, policy, asOf, currency } = context;
  const type = rateBook.partTypes.find(({ id }) => id === need.type);
  const kind = context.kinds?.find(({ id }) => id === need.kind);
  if (!type || (need.kind !== undefined && !kind)) throw new Error(`Part not checked: ${need.kind ?? need.type}`);
  const part = { type: type.id, ...(kind && { kind: kind.id }), name: kind?.name ?? type.name };
  const offers = kind ? offersFor(kind.id, context.offers ?? [], asOf, currency) : [];
  const byHand = kind?.scarcity ?? policy?.scarcityByType?.[type.id];
  const { scarcity, because }: ScarcityClass =
    !kind && !byHand
      ? { scarcity: "in stock", because: { is: "usual part" } }
      : scarcityOf({ byHand, needed: need.count, stock: kind?.stock ?? 0, offers, asOf, rules: rateBook.scarcity });
  const whole = rateBook.parts.packs === "whole" || scarcity === "scarce" || scarcity === "donor only";
  const percent = rateBook.scarcity.marginPercent[scarcity];

  const priceOf = (lots: readonly Lot[]) => lots.map((lot) => ({ lot, ...priceLot(lot, rateBook.parts) }));
  const marginOn = (lots: readonly LotPrice[]) => percentOf(sumOf(lots.map(({ cost }) => cost)), percent);
  const rate = rateBook.labourClasses.find(({ id }) => id === rateBook.accessClass)?.ratePerHour ?? 0;
  const shelf = kind ? fromShelf(need.count, kind, type, offers) : [typical(need.count, type)];
  const bought = need.count - sumOf(shelf.map(({ pieces }) => pieces));
  const chosen =
    bought === 0
      ? []
      : chooseLots(bought, offers, whole, (lots) => {
          const prices = priceOf([...shelf, ...lots]);
          const pulling = lots.map((lot) => priceMilli(pullMilli(lot), rate));
          return sumOf([...prices.map(({ amount }) => amount), ...pulling, marginOn(prices), extraFreight(lots, paid)]);
        });
  const short = bought - sumOf(chosen.map(({ pieces }) => pieces));
  const lots = priceOf([...shelf, ...chosen, ...(short > 0 ? [beyondOffers(short, type, offers)] : [])]);
  payFreight(chosen, paid);

  const key = kind?.id ?? type.id;
  const items = need.items.map((id): Source => ({ is: "item", id }));
  const lines = lots.map(
    ({ lot, unitPriceE4, amount, band }): Line => ({
      id: `part:${key}`,
      sort: "part",
      taxClass: "parts",
      taxCategory: rateBook.tax.parts,
      part,
      count: lot.charged,
      unitPriceE4,
      amount,
      from: [
        ...items,
        ...(lot.way === "stock" ? [{ is: "stock", kind: key } as const] : []),
        priceSource(lot, context, type),
        ...(band < 0 ? [] : [{ is: "rate book", entry: `/parts/markUp/${band}` } as const]),
        { is: "rule", rule: "mark-up by unit cost" },
        ...(lot.charged > lot.pieces ? [{ is: "rule", rule: "whole packs" } as const] : []),
      ],
    }),
  );
  const margin = marginOn(lots);
  if (margin !== 0)
    lines.push({
      id: `scarcity:${key}`,
      sort: "scarcity margin",
      taxClass: "parts",
      taxCategory: rateBook.tax.parts,
      part,
      amount: margin,
      why: { rule: "scarcity", scarcity, percent, because },
      from: [
        ...items,
        { is: "rate book", entry: `/scarcity/marginPercent/${scarcity}` },
        { is: "rule", rule: "scarcity margin" },
      ],
    });

  const results = lots.map(
    ({ lot, cost, markUpPercent }): PartResult => ({
      ...part,
      needed: lot.pieces,
      charged: lot.charged,
      scarcity,
      because,
      ...(lot.way === "offer" && lot.offer && { offer: lot.offer.id, source: lot.offer.source }),
      leadDays: lot.way === "stock" ? 0 : (lot.offer?.leadDays ?? 0),
      cost,
      markUpPercent,
    }),
  );

  const pulls = chosen.flatMap((lot): PullWork[] =>
    lot.offer && pullMilli(lot) > 0
      ? [
          {
            part,
            offer: lot.offer.id,
            source: lot.offer.source,
            items: need.items,
            count: lot.pieces,
            minutes: fromMilli(pullMilli(lot)),
          },
        ]
      : [],
  );

  const warnings: Warning[] = lots.flatMap(({ lot: { offer } }) => {
    const days = offer ? daysBetween(offer.on, asOf) : 0;
    return offer && days > rateBook.parts.offerGoodForDays
      ? [{ is: "old offer", offer: offer.id, part: part.name, on: offer.on, days } as const]
      : [];
  });
  // A shop that has set the class by hand and keeps no offers knows what it does.
  if (short > 0 && !(byHand && offers.length === 0))
    warnings.push({
      is: "not enough offered",
      part: part.name,
      needed: need.count,
      offered: need.count - short,
    });
  return { lines, results, pulls, warnings };
}

const sumOf = (numbers: readonly number[]): number => numbers.reduce((sum, number) => sum + number, 0);

const pullMilli = (lot: Lot): number => toMilli(lot.offer?.pullMinutes ?? 0) * lot.pieces;

const typical = (pieces: number, type: PartType): Lot => ({
  way: "typical",
  pieces,
  charged: pieces,
  price: type.typicalCost,
  per: 1,
});

/** At the price of an offer, or the type's typical cost. */
const atPriceOf = (offer: Offer | undefined, way: Lot["way"], pieces: number, type: PartType): Lot =>
  offer ? { way, offer, pieces, charged: pieces, price: offer.price, per: offer.packSize } : { ...typical(pieces, type), way };

function fromShelf(count: number, kind: PartKind, type: PartType, offers: readonly Offer[]): Lot[] {
  const pieces = Math.min(count, kind.stock ?? 0);
  return pieces > 0 ? [atPriceOf([...offers].sort(byUnitCost)[0], "stock", pieces, type)] : [];
}

const beyondOffers = (pieces: number, type: PartType, offers: readonly Offer[]): Lot =>
  atPriceOf([...offers].sort(byUnitCost).at(-1), "short", pieces, type);

const priceSource = ({ offer }: Lot, { rateBook }: PartsContext, type: PartType): Source =>
  offer
    ? { is: "offer", id: offer.id, source: offer.source, on: offer.on }
    : { is: "rate book", entry: `/partTypes/${rateBook.partTypes.indexOf(type)}/typicalCost` };

function merge(needs: readonly PartNeed[]): PartNeed[] {
  const merged = new Map<string, PartNeed>();
  for (const need of needs) {
    const key = JSON.stringify([need.type, need.kind]);
    const before = merged.get(key);
    const items = [...new Set([...(before?.items ?? []), ...need.items])].sort();
    merged.set(key, { ...need, count: need.count + (before?.count ?? 0), items });
  }
  return [...merged.values()].filter(({ count }) => count > 0);
}

function inCatalogueOrder(needs: readonly PartNeed[], { rateBook, kinds = [] }: PartsContext): PartNeed[] {
  const place = (need: PartNeed) =>
    rateBook.partTypes.findIndex(({ id }) => id === need.type) * (kinds.length + 1) +
    kinds.findIndex(({ id }) => id === need.kind);
  return [...needs].sort((a, b) => place(a) - place(b));
}

/** A kind got in several ways, or one named like a type, has further lines 'part:KIND/2', 'part:KIND/3'. */
function withUniqueIds(lines: readonly Line[]): Line[] {
  const seen = new Map<string, number>();
  return lines.map((line) => {
    const times = (seen.get(line.id) ?? 0) + 1;
    seen.set(line.id, times);
    return times === 1 ? line : { ...line, id: `${line.id}/${times}` };
  });
}
