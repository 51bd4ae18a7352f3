/** What a supply prints: a line for each lot, and the scarcity margin as a line of its own. */
import type { TaxRules } from "../input.js";
import type { Line, Source } from "../sheet.js";
import type { PricedLot } from "./lot.js";
import type { Supply } from "./supply.js";

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

function* priceSources({ lot, band }: PricedLot, key: string, typeAt: number): Generator<Source> {
  const { way, offer, pieces, charged } = lot;
  if (way === "stock") yield { is: "stock", kind: key };
  if (offer) yield { is: "offer", id: offer.id, source: offer.source, on: offer.on };
  else yield { is: "rate book", entry: `/partTypes/${typeAt}/typicalCost` };
  if (band >= 0) yield { is: "rate book", entry: `/parts/markUp/${band}` };
  yield { is: "rule", rule: "mark-up by unit cost" };
  if (charged > pieces) yield { is: "rule", rule: "whole packs" };
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
