/** A made-up job that touches every rule of the engine once; it is never shown or kept (demo). */
import type { EstimateInput, Offer, RateBook, ThreePoint, WorkItem } from "../../estimating/input.js";

const source = { basis: "demo" } as const;
const about = (likely: number): ThreePoint => ({ low: likely / 2, likely, high: likely * 2 });

const rateBook: RateBook = {
  id: "rehearsal",
  version: 1,
  name: "Rehearsal",
  currency: "EUR",
  inForceFrom: "2026-01-01",
  labourClasses: [
    { id: "bench", name: "Bench", ratePerHour: 6000, attended: true, source },
    { id: "soak", name: "Soak", ratePerHour: 600, attended: false, source },
  ],
  billing: { incrementMinutes: 7, minimumCharge: 1000 },
  grades: [{ id: "worn", name: "Worn", labourPercent: 120, spreadPercent: 30, source }],
  fasteners: [{ kind: "screw", remove: about(0.3), refit: about(0.5), source }],
  accessStandards: [{ size: "small", mounting: "on top", remove: about(3), refit: about(4), source }],
  accessClass: "bench",
  leads: { desolder: about(0.1), clear: about(0.1), fit: about(0.1), solder: about(0.1), inspect: about(0.1), source },
  partTypes: [{ id: "capacitor", name: "Capacitor", family: "capacitor", leads: 2, typicalCost: 40, source }],
  operations: [
    { id: "replace", name: "Replace", sort: "replacement", labourClass: "bench", setup: about(5), unit: about(2), source },
    { id: "soak", name: "Soak", sort: "soak", labourClass: "soak", setup: about(0), unit: about(60), source },
  ],
  parts: {
    markUp: [{ upTo: 1000, percent: 40 }, { percent: 20 }],
    packs: "whole",
    offerGoodForDays: 90,
    sundries: { percentOfParts: 5, percentOfLabour: 1 },
  },
  scarcity: {
    marginPercent: { "in stock": 0, "to order": 5, scarce: 50, "donor only": 100 },
    serviceLevel: 0.9,
    fewSources: 2,
    freshDays: 120,
    shareGood: { new: 1, "new old stock": 0.9, used: 0.7, "donor pull": 0.6, reproduction: 1 },
    source,
  },
  fees: { diagnosis: { amount: 4000, creditedOnAgreement: true }, rushPercent: 25, storagePerDay: 100 },
  deposit: { scarcePartsPercent: 50, labourPercent: 10 },
  tax: {
    included: true,
    categories: [{ id: "full", name: "Tax 20 %", percent: 20 }],
    labour: "full",
    parts: "full",
    freight: "full",
    fees: "full",
    rounding: { level: "group", mode: "half up" },
  },
  ceiling: { abovePercent: 10 },
  calendar: { weeklyBenchMinutes: 1200 },
  valueSharePercent: 60,
  validityDays: 30,
};

const work = (id: string, given: Partial<WorkItem>): WorkItem => ({
  id,
  assembly: "low",
  operation: "replace",
  count: 3,
  certainty: { is: "planned" },
  ...given,
});

const offer = (id: string, state: Offer["state"], price: number): Offer => ({
  id,
  kind: "rare",
  source: `Source ${id}`,
  on: "2026-11-01",
  currency: "EUR",
  price,
  packSize: 1,
  available: 9,
  leadDays: 6,
  state,
  freight: 400,
});

export const REHEARSAL_JOB: EstimateInput = {
  schema: 1,
  asOf: "2026-11-25",
  currency: "EUR",
  unit: { maker: "Made up", model: "Rehearsal", grade: "worn", declaredValue: 50_000, hazards: ["lead solder"] },
  boards: [{ size: "small", mounting: "on top", count: 1 }],
  map: {
    assemblies: [
      {
        id: "lid",
        name: "Lid",
        sort: "cover",
        access: { by: "fasteners", fasteners: [{ kind: "screw", count: 4 }] },
        worthDoing: [{ operation: "soak", count: 1, reason: "open already" }],
      },
      {
        id: "low",
        name: "Low board",
        sort: "board",
        access: { by: "standard", size: "small", mounting: "on top" },
        behind: ["lid"],
      },
    ],
  },
  kinds: [{ id: "rare", type: "capacitor", name: "Rare capacitor", value: "10 uF 63 V" }],
  offers: [offer("a", "used", 800), offer("b", "new old stock", 1100), offer("c", "new old stock", 1300)],
  items: [
    work("planned", { part: { kind: "rare" }, original: { value: "10 uF 50 V", ratedVolts: 50, workingVolts: 45 } }),
    work("usual", { part: { type: "capacitor" }, original: { value: "2u2" } }),
    work("soak", { operation: "soak", count: 1 }),
    work("small fault", {
      part: { type: "capacitor" },
      original: { value: "104K" },
      count: 1,
      certainty: { is: "if found", probability: 0.3 },
    }),
    work("large fault", { count: 9, part: { kind: "rare" }, certainty: { is: "if found", probability: 0.2 } }),
    work("option", {
      assembly: "lid",
      part: { type: "capacitor" },
      original: { value: ".047K" },
      certainty: { is: "optional", chosen: false },
    }),
  ],
  rateBook,
  policy: { pricing: { is: "fixed price", confidencePercent: 80 }, rush: true },
};
