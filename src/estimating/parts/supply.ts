/** How one need is met: from the shelf first, then bought, and at a guess what nobody offers. */
import { known } from "../book.js";
import type { Minor, Minutes, PartPrice, PartType, Percent } from "../input.js";
import type { ItemPart, ReadItem } from "../labour/readItem.js";
import type { LandedOffer } from "../money/landed.js";
import { fromMilli, percentOf, priceMilli, toMilli } from "../money/scales.js";
import { isBrought } from "../resolve.js";
import type { Line } from "../sheet.js";
import type { Catalogue, PartsContext } from "./catalogue.js";
import {
  chooseLots,
  extraFreight,
  type FreightPaid,
  type Lot,
  lotAtPriceOf,
  type PricedLot,
  payFreight,
  priceLot,
} from "./lot.js";
import { type ScarcityClass, scarcityOf } from "./scarcity.js";

export interface PartNeed {
  readonly type: string;
  readonly kind?: string;
  readonly count: number;
  /** Ids of the work items that need it. */
  readonly items: readonly string[];
  /** Of one line alone, in place of what the part costs. */
  readonly price?: PartPrice;
  /** For work behind a service: got like any part, and not charged. */
  readonly behind?: true;
}

export interface Supply extends ScarcityClass {
  readonly need: PartNeed;
  readonly type: PartType;
  readonly part: NonNullable<Line["part"]>;
  readonly lots: readonly PricedLot[];
  readonly marginPercent: Percent;
  /** Percent of the cost before mark-up. */
  readonly margin: Minor;
  /** Pieces that nobody offers, to be warned about. */
  readonly short: number;
}

/** Pays the freight it causes into `paid`. `taken`: pieces that another need of the kind has from the shelf. Throws if the type or kind is unknown: the check has found it already. */
export function supplyPart(
  need: PartNeed,
  catalogue: Catalogue,
  context: PartsContext,
  paid: FreightPaid,
  taken: number,
): Supply {
  const { rateBook, policy, asOf } = context;
  const type = known(catalogue.types, need.type).is;
  const kind = need.kind === undefined ? undefined : known(catalogue.kinds, need.kind).is;
  const offers = (kind && catalogue.offers.get(kind.id)) ?? [];
  const byType = policy?.scarcityByType ?? {};
  const byHand = kind?.scarcity ?? (Object.hasOwn(byType, type.id) ? byType[type.id] : undefined);
  const brought = kind !== undefined && isBrought(kind);
  const stock = brought ? need.count : Math.max(0, (kind?.stock ?? 0) - taken);
  const scarcityClass: ScarcityClass =
    kind || byHand
      ? scarcityOf({ byHand, needed: need.count, stock, offers, asOf, rules: rateBook.scarcity })
      : { scarcity: "in stock", because: { is: "usual part" } };
  const hard = scarcityClass.scarcity === "scarce" || scarcityClass.scarcity === "donor only";
  const whole = hard || rateBook.parts.packs === "whole";
  const marginPercent = rateBook.scarcity.marginPercent[scarcityClass.scarcity];

  const priceAll = (lots: readonly Lot[]) => lots.map((lot) => priceLot(lot, rateBook.parts));
  const marginOn = (lots: readonly PricedLot[]) => percentOf(sum(lots.map(({ cost }) => cost)), marginPercent);
  const pullRate = rateBook.labourClasses.find(({ id }) => id === rateBook.accessClass)?.ratePerHour ?? 0;
  const fromShelf = Math.min(need.count, stock);
  const shelf = fromShelf > 0 ? [brought ? broughtLot(fromShelf) : lotAtPriceOf(offers[0], type, "stock", fromShelf)] : [];
  const toBuy = need.count - fromShelf;
  const bought =
    toBuy === 0
      ? []
      : chooseLots(toBuy, offers, whole, (lots) => {
          const priced = priceAll([...shelf, ...lots]);
          const pulling = lots.map((lot) => priceMilli(toMilli(pullMinutes(lot)), pullRate));
          return sum([...priced.map(({ amount }) => amount), ...pulling, marginOn(priced), extraFreight(lots, paid)]);
        });
  const left = toBuy - sum(bought.map(({ pieces }) => pieces));
  const guess = left > 0 ? [lotAtPriceOf(dearest(offers), type, "guess", left)] : [];
  payFreight(bought, paid);

  const lots = priceAll([...shelf, ...bought, ...guess].map((lot) => atOwnPrice(lot, need.price)));
  // A shop that set the class by hand and keeps no offers knows what it does.
  const warned = kind !== undefined && !(byHand && offers.length === 0);
  return {
    need,
    type,
    part: { type: type.id, ...(kind && { kind: kind.id }), name: kind?.name ?? type.name },
    ...scarcityClass,
    lots,
    marginPercent,
    margin: marginOn(lots),
    short: warned ? left : 0,
  };
}

const broughtLot = (pieces: number): Lot => ({ way: "stock", pieces, charged: pieces, price: 0, per: 1, brought: true });

/** The shop's own price is for the pieces used, whatever pack they come in. */
const atOwnPrice = (lot: Lot, own: PartPrice | undefined): Lot =>
  own ? { ...lot, charged: lot.pieces, price: own.cost, per: 1, instead: { price: lot.price, per: lot.per, own } } : lot;

/** Minutes to pull the pieces of a lot from donor units. */
export const pullMinutes = ({ way, offer, pieces }: Lot): Minutes =>
  way === "offer" ? fromMilli(toMilli(offer?.pullMinutes ?? 0) * pieces) : 0;

const dearest = (offers: readonly LandedOffer[]): LandedOffer | undefined => offers.at(-1);
const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);

/** What the work consumes, one need for each part kind or type. */
export function needsOf(items: readonly ReadItem[]): PartNeed[] {
  const needs = new Map<ItemPart, PartNeed & { count: number; items: string[] }>();
  for (const { item, takes } of items) {
    const { part } = takes;
    if (!part) continue;
    const need = needs.get(part);
    if (need) {
      need.count += item.count;
      need.items.push(item.id);
    } else
      needs.set(part, {
        type: part.type.is.id,
        ...(part.kind && { kind: part.kind.id }),
        ...(part.price && { price: part.price }),
        ...(part.behind && { behind: true as const }),
        count: item.count,
        items: [item.id],
      });
  }
  return [...needs.values()];
}
