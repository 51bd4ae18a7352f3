/** A job's risk as a shop would read it, its curve two humps: a fault that turns up in three jobs of ten (demo). */
import type { RiskSummary } from "../../../src/estimating/sheet.js";

const hump = (amount: number, middle: number, width: number): number => 1 / (1 + Math.exp(-(amount - middle) / width));
const atMost = (amount: number): number => 0.7 * hump(amount, 79_000, 3_200) + 0.3 * hump(amount, 98_000, 2_500);

/** Smallest whole amount that so many jobs do not pass. */
function percentile(share: number): number {
  let amount = 0;
  for (let step = 65_536; step >= 1; step /= 2) if (atMost(amount + step) < share) amount += step;
  return amount + 1;
}

const [first, last] = [percentile(0.005), percentile(0.995)];
const POINTS = 61;

export const RISK: RiskSummary = {
  taxIncluded: false,
  expected: 84_700,
  sd: 9_654,
  p10: percentile(0.1),
  p50: percentile(0.5),
  p80: percentile(0.8),
  p95: percentile(0.95),
  tried: { price: 97_531, chanceOfLoss: 1 - atMost(97_531), expectedLoss: 862 },
  curve: Array.from({ length: POINTS }, (_, index) => {
    const amount = Math.round(first + ((last - first) * index) / (POINTS - 1));
    return { amount, chance: atMost(amount) };
  }),
  contributions: [
    {
      source: "if found",
      id: "spill damage",
      name: "Repair a broken track × 2 and Replace, Seven-stage frequency divider",
      takesOff: 5_219,
    },
    { source: "condition", id: "worn", name: "Worn: dusty, some stiff hardware, old repairs", takesOff: 3_141 },
    { source: "sourcing", id: "divider", name: "Seven-stage frequency divider", takesOff: 963 },
    { source: "labour", id: "labour:w08", name: "Top divider board: Replace: Electrolytic 47 µF 50 V, 105 °C", takesOff: 427 },
    { source: "labour", id: "access:lid", name: "Open and refit Lid", takesOff: 221 },
    { source: "labour", id: "labour:w09", name: "Middle divider board: Replace: Electrolytic 47 µF 50 V, 105 °C", takesOff: 118 },
    { source: "labour", id: "labour:w28", name: "Slider panel: Clean sliders", takesOff: 77 },
    { source: "labour", id: "labour:w30", name: "Preset button board: Clean switches", takesOff: 55 },
    { source: "labour", id: "labour:w10", name: "Bottom divider board: Replace: Electrolytic 47 µF 50 V, 105 °C", takesOff: 31 },
    { source: "labour", id: "labour:w11", name: "Bottom divider board: Clean a board", takesOff: -12 },
  ],
  buyPlans: [],
  completion: { p50: { days: 24, on: "2026-12-19" }, p80: { days: 31, on: "2026-12-26" } },
  pricing: { by: { is: "fixed price", confidencePercent: 80 }, deterministic: 77_142, price: 97_531 },
};

/** Nothing about it is uncertain. */
export const CERTAIN: RiskSummary = {
  taxIncluded: true,
  expected: 70_000,
  sd: 0,
  p10: 70_000,
  p50: 70_000,
  p80: 70_000,
  p95: 70_000,
  tried: { price: 70_000, chanceOfLoss: 0, expectedLoss: 0 },
  curve: [],
  contributions: [],
  buyPlans: [],
  completion: { p50: { days: 3, on: "2026-11-28" }, p80: { days: 3, on: "2026-11-28" } },
  pricing: {
    by: { is: "time and parts with ceiling", confidencePercent: 80 },
    deterministic: 70_000,
    price: 70_000,
    ceiling: 70_000,
  },
};
