/** A demo shop for the tests of parts: one part kind, offers made to order. All of it invented. */
import rateBook from "../../../fixtures/demo/rate-book.json";
import type { Offer, PartKind, RateBook } from "../../../src/estimating/input.js";
import type { PartsContext, PartsPrice } from "../../../src/estimating/parts/priceParts.js";

export const AS_OF = "2026-11-25";

const DEMO = rateBook as RateBook;

export interface Rules {
  readonly packs?: RateBook["parts"]["packs"];
  readonly markUp?: RateBook["parts"]["markUp"];
  readonly marginPercent?: RateBook["scarcity"]["marginPercent"];
  readonly typicalCost?: number;
}

export const NO_MARGIN = { "in stock": 0, "to order": 0, scarce: 0, "donor only": 0 };

export const bookWith = ({
  packs = "used",
  markUp = [{ percent: 0 }],
  marginPercent = NO_MARGIN,
  typicalCost = 100,
}: Rules = {}): RateBook => ({
  ...DEMO,
  partTypes: [
    { id: "film", name: "Film capacitor", family: "capacitor", leads: 2, typicalCost, source: { basis: "demo" } },
    { id: "divider", name: "Divider IC", family: "semiconductor", leads: 14, typicalCost: 900, source: { basis: "demo" } },
  ],
  parts: { ...DEMO.parts, packs, markUp, offerGoodForDays: 90 },
  scarcity: { ...DEMO.scarcity, marginPercent, fewSources: 2, freshDays: 120 },
});

export const offer = (id: string, given: Partial<Offer> = {}): Offer => ({
  id,
  kind: "divider-a",
  source: `Source of ${id}`,
  on: "2026-11-01",
  currency: "GBP",
  price: 100,
  packSize: 1,
  leadDays: 5,
  state: "new",
  ...given,
});

export const DIVIDER: PartKind = { id: "divider-a", type: "divider", name: "Octave divider A" };

export const shop = (offers: readonly Offer[], rules: Rules = {}, kinds: readonly PartKind[] = [DIVIDER]): PartsContext => ({
  kinds,
  offers,
  rateBook: bookWith(rules),
  asOf: AS_OF,
  currency: "GBP",
});

export const dividers = (count: number, ...items: string[]) => [{ type: "divider", kind: "divider-a", count, items }];

/** What the owner pays for parts and freight; pulling is priced by the labour class. */
export const owed = ({ lines, freight }: PartsPrice): number =>
  [...lines, ...freight].reduce((sum, { amount }) => sum + amount, 0);
