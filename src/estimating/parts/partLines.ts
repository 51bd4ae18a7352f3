/** What a supply prints: a line for each lot, and the scarcity margin as a line of its own; and the work of pulling. */

import { type Book, known } from "../book.js";
import type { IsoDate, Minutes, RateBook, TaxRules } from "../input.js";
import type { LabourLine } from "../labour/times.js";
import { priceMilli, toMilli } from "../money/scales.js";
import type { Line, Source } from "../sheet.js";
import type { Lot, PricedLot } from "./lot.js";
import type { Supply } from "./supply.js";

/** Labour to pull donor parts, to be charged at the labour class of access. */
export interface PullWork {
  readonly part: NonNullable<Line["part"]>;
  /** For work behind a service, and so not charged. */
  readonly behind?: true;
  /** Id of the offer. */
  readonly offer: string;
  readonly source: string;
  readonly on: IsoDate;
  readonly items: readonly string[];
  readonly count: number;
  readonly minutes: Minutes;
}

export function partLines(supply: Supply, typeAt: number, tax: TaxRules): Line[] {
  const { need, part, lots, margin, marginPercent, scarcity, because } = supply;
  const key = part.kind ?? part.type;
  const items = need.items.map((id): Source => ({ is: "item", id }));
  const common = { taxClass: "parts", taxCategory: tax.parts, part } as const;
  const lines = lots.map(
    (priced): Line => ({
      ...common,
      id: `part:${key}`,
      sort: "part",
      count: priced.lot.charged,
      unitPriceE4: priced.unitPriceE4,
      amount: priced.amount,
      ...whyPriced(priced),
      from: [...items, ...priceSources(priced, key, typeAt)],
    }),
  );
  if (margin === 0) return lines;
  return [
    ...lines,
    {
      ...common,
      id: `scarcity:${key}`,
      sort: "scarcity margin",
      amount: margin,
      why: { rule: "scarcity", scarcity, percent: marginPercent, because },
      from: [
        ...items,
        { is: "rate book", entry: `/scarcity/marginPercent/${scarcity}` },
        { is: "rule", rule: "scarcity margin" },
      ],
    },
  ];
}

function whyPriced({ lot: { brought, instead } }: PricedLot): Pick<Line, "why"> {
  if (brought) return { why: { rule: "brought by the owner" } };
  if (!instead) return {};
  const { price, per, own } = instead;
  const { cost, reason, source } = own;
  return { why: { rule: "price of this line", catalogue: price, per, cost, reason, ...(source !== undefined && { source }) } };
}

function* priceSources({ lot, band }: PricedLot, key: string, typeAt: number): Generator<Source> {
  const { way, offer, pieces, charged, brought } = lot;
  if (brought) return;
  if (way === "stock") yield { is: "stock", kind: key };
  if (offer) {
    yield { is: "offer", id: offer.id, source: offer.source, on: offer.on };
    yield* offer.steps?.price ?? [];
  } else yield { is: "rate book", entry: `/partTypes/${typeAt}/typicalCost` };
  if (band >= 0) yield { is: "rate book", entry: `/parts/markUp/${band}` };
  yield { is: "rule", rule: "mark-up by unit cost" };
  if (charged > pieces) yield { is: "rule", rule: "whole packs" };
  const least = minimumCharged(lot);
  if (least) yield { is: "minimum order", ...least };
}

/** Packs that are charged because the source sells no fewer; undefined where the pieces used fill as many. */
export function minimumCharged({ offer, pieces, charged }: Lot) {
  if (!offer || charged - pieces < offer.packSize) return undefined;
  return { packs: charged / offer.packSize, packSize: offer.packSize, used: pieces };
}

/** A part got in several ways, or a kind named like a type, has further lines 'part:KIND/2', 'part:KIND/3'. */
export function withUniqueIds(lines: readonly Line[]): Line[] {
  const seen = new Map<string, number>();
  return lines.map((line) => {
    const times = (seen.get(line.id) ?? 0) + 1;
    seen.set(line.id, times);
    return times === 1 ? line : { ...line, id: `${line.id}/${times}` };
  });
}

/** Pulling is access labour that the condition of the owner's unit does not change. */
export function pullLine(pull: PullWork, rateBook: RateBook, book: Book): LabourLine {
  const { is: labourClass, at } = known(book.classes, rateBook.accessClass);
  const milli = toMilli(pull.minutes);
  return {
    times: { low: milli, likely: milli, high: milli },
    attended: labourClass.attended,
    labourClass: labourClass.id,
    ...(pull.behind && { behind: pull.offer }),
    line: {
      id: `pull:${pull.offer}`,
      sort: "donor pull",
      taxClass: "labour",
      taxCategory: rateBook.tax.labour,
      part: pull.part,
      labourClass: { id: labourClass.id, name: labourClass.name },
      count: pull.count,
      minutes: pull.minutes,
      amount: priceMilli(milli, labourClass.ratePerHour),
      from: [
        ...pull.items.map((id) => ({ is: "item", id }) as const),
        { is: "offer", id: pull.offer, source: pull.source, on: pull.on },
        { is: "rate book", entry: `/labourClasses/${at}` },
      ],
    },
  };
}
