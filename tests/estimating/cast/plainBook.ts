/** A rate book to reckon with in the head: one bench minute costs 1.00, no tax, no steps, no extras. All of it invented. */
import type {
  AccessStandard,
  BoardSize,
  Minutes,
  Mounting,
  Operation,
  PartType,
  RateBook,
  ThreePoint,
} from "../../../src/estimating/input.js";
import { FASTENER_KINDS } from "../../../src/estimating/lists.js";

const demo = { basis: "demo" } as const;

/** Half as long at the least, twice as long at the most. */
export const about = (likely: Minutes): ThreePoint => ({ low: likely / 2, likely, high: likely * 2 });

const standard = (size: BoardSize, mounting: Mounting, minutes: Minutes): AccessStandard => ({
  size,
  mounting,
  remove: about(minutes),
  refit: about(minutes + 1),
  source: demo,
});

const partType = (id: string, given: Partial<PartType>): PartType => ({
  id,
  name: id,
  family: "other",
  typicalCost: 10,
  source: demo,
  ...given,
});

const operation = (id: string, setup: Minutes, unit: Minutes, given: Partial<Operation> = {}): Operation => ({
  id,
  name: id,
  sort: "other",
  labourClass: "bench",
  setup: about(setup),
  unit: about(unit),
  source: demo,
  ...given,
});

export const PLAIN: RateBook = {
  id: "plain",
  version: 1,
  name: "Plain book",
  currency: "EUR",
  inForceFrom: "2026-01-01",
  labourClasses: [
    { id: "bench", name: "Bench", ratePerHour: 6000, attended: true, source: demo },
    { id: "alignment", name: "Alignment", ratePerHour: 12_000, attended: true, source: demo },
    { id: "soak", name: "Soak", ratePerHour: 600, attended: false, source: demo },
  ],
  billing: { incrementMinutes: 0, minimumCharge: 0 },
  grades: [
    { id: "sound", name: "Sound", labourPercent: 100, spreadPercent: 20, source: demo },
    { id: "worn", name: "Worn", labourPercent: 150, spreadPercent: 40, source: demo },
  ],
  // The nth kind takes n minutes off and n + 1 on.
  fasteners: FASTENER_KINDS.map((kind, i) => ({ kind, remove: about(i + 1), refit: about(i + 2), source: demo })),
  accessStandards: (["small", "medium", "large"] as const).flatMap((size, i) =>
    (["on top", "behind another", "behind a panel with knobs"] as const).map((mounting, j) =>
      standard(size, mounting, 3 * i + j + 1),
    ),
  ),
  accessClass: "bench",
  // Half a minute per lead.
  leads: { desolder: about(0.1), clear: about(0.1), fit: about(0.1), solder: about(0.1), inspect: about(0.1), source: demo },
  partTypes: [
    partType("capacitor", { family: "capacitor", leads: 2 }),
    partType("dip-40", { family: "semiconductor", leads: 40 }),
    partType("valve", { family: "valve", minutes: about(1) }),
  ],
  operations: [
    operation("replace", 8, 2, { sort: "replacement" }),
    operation("clean", 4, 3, { sort: "cleaning" }),
    operation("adjust", 5, 10, { sort: "alignment", labourClass: "alignment" }),
    operation("soak", 0, 60, { sort: "soak", labourClass: "soak" }),
  ],
  parts: { markUp: [{ percent: 0 }], packs: "used", offerGoodForDays: 90, sundries: { percentOfParts: 0, percentOfLabour: 0 } },
  scarcity: {
    marginPercent: { "in stock": 0, "to order": 0, scarce: 50, "donor only": 100 },
    serviceLevel: 0.9,
    fewSources: 2,
    freshDays: 120,
    shareGood: { new: 1, "new old stock": 0.9, used: 0.7, "donor pull": 0.6, reproduction: 1 },
    source: demo,
  },
  fees: { diagnosis: { amount: 4000, creditedOnAgreement: false }, rushPercent: 25, storagePerDay: 100 },
  deposit: { scarcePartsPercent: 0, labourPercent: 0 },
  tax: {
    included: false,
    categories: [
      { id: "none", name: "No tax", percent: 0 },
      { id: "full", name: "Tax 20 %", percent: 20 },
    ],
    labour: "none",
    parts: "none",
    freight: "none",
    fees: "none",
    rounding: { level: "group", mode: "half up" },
  },
  ceiling: { abovePercent: 10 },
  calendar: { weeklyBenchMinutes: 1200 },
  valueSharePercent: 60,
  validityDays: 30,
};

/** The same book with every sort of line taxed at 20 %. */
export const TAXED: RateBook = { ...PLAIN, tax: { ...PLAIN.tax, labour: "full", parts: "full", freight: "full", fees: "full" } };
