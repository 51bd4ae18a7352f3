/** Twenty invented job shapes, smooth and lumpy, in minor units (demo). */
import type { FoundRisk, LabourRisk, RiskModel, SourcingRisk } from "../../../src/estimating/risk/model.js";

const RATE = 6000;
export const line = (low: number, likely: number, high: number, underCondition = true): LabourRisk => ({
  id: `line ${low} ${likely} ${high}`,
  time: { low, likely, high },
  ratePerHour: RATE,
  underCondition,
});
export const found = (
  probability: number,
  parts: number,
  labour: readonly LabourRisk[],
  sourcing: readonly SourcingRisk[] = [],
): FoundRisk => ({
  id: `found ${probability} ${parts}`,
  probability,
  parts,
  labour,
  sourcing,
});
export const bought = (...pairs: readonly (readonly [probability: number, amount: number])[]): SourcingRisk => ({
  id: `bought ${pairs.length} ${pairs[0]![1]}`,
  priced: pairs[0]![1],
  outcomes: pairs.map(([probability, amount]) => ({ probability, amount })),
});
export const job = (
  conditionCv: number,
  fixed: number,
  labour: readonly LabourRisk[],
  ifFound: readonly FoundRisk[] = [],
  sourcing: readonly SourcingRisk[] = [],
): RiskModel => ({
  conditionCv,
  fixed,
  labour,
  ifFound,
  sourcing,
});
const many = <T>(count: number, make: (n: number) => T): T[] => Array.from({ length: count }, (_, n) => make(n));
/** Spreads whole numbers evenly over 0..1 (golden ratio). */
const mixed = (n: number): number => (n * 0.6180339887) % 1;

const plan = (n: number): SourcingRisk => bought([0.9, 3000 + 900 * n], [0.07, 4500 + 1200 * n], [0.03, 9000 + 1500 * n]);
/** 100 items: 50 planned lines, 40 that may be found, 10 buy plans. */
export const HUNDRED = (cv: number): RiskModel =>
  job(
    cv,
    50_000,
    many(50, (n) => line(5 + 20 * mixed(n), 8 + 30 * mixed(n), 15 + 60 * mixed(n))),
    many(40, (n) =>
      found(0.05 + 0.5 * mixed(n + 7), Math.round(20_000 * mixed(n + 3) ** 3), [
        line(10 + 40 * mixed(n), 15 + 60 * mixed(n), 30 + 90 * mixed(n)),
      ]),
    ),
    many(10, plan),
  );

export const JOB_SHAPES: Readonly<Record<string, RiskModel>> = {
  "one short line": job(0.25, 0, [line(20, 30, 90)]),
  "one line, like for like unit": job(0, 2500, [line(20, 30, 90)]),
  "fixed hours, one fault that may turn up": job(0.25, 20_000, [line(600, 600, 600)], [found(0.3, 8000, [line(150, 150, 150)])]),
  "twelve lines": job(
    0.3,
    9000,
    many(12, (n) => line(5 + n, 10 + 2 * n, 30 + 4 * n)),
  ),
  "one line much wider than the rest": job(0.15, 9000, [line(10, 20, 30), line(15, 20, 40), line(5, 10, 20), line(20, 60, 400)]),
  "small work, one large fault": job(0.25, 3000, [line(20, 30, 45)], [found(0.35, 25_000, [line(120, 200, 400)])]),
  "small work, three large faults": job(
    0.3,
    3000,
    [line(40, 60, 90)],
    [found(0.3, 30_000, [line(150, 200, 500)]), found(0.12, 60_000, [line(50, 70, 100)]), found(0.6, 0, [line(150, 300, 500)])],
  ),
  "parts dearer than the work": job(
    0.2,
    4000,
    [line(60, 80, 120)],
    [found(0.25, 60_000, [line(10, 15, 20)]), found(0.4, 35_000, [])],
  ),
  "transformer, scarce": job(
    0.25,
    12_000,
    [line(90, 120, 240), line(20, 30, 60)],
    [],
    [bought([0.85, 18_000], [0.11, 32_000], [0.04, 60_000])],
  ),
  "rare and very dear": job(0.2, 5000, [line(60, 90, 200), line(10, 20, 40)], [found(0.004, 2_000_000, [])]),
  "twelve equal faults": job(
    0.2,
    5000,
    [line(100, 120, 180)],
    many(12, () => found(0.22, 2000, [line(30, 30, 30)])),
  ),
  "eight unequal faults, hardly any spread": job(
    0,
    5000,
    [line(100, 101, 102)],
    many(8, (n) => found(0.12 + 0.05 * n, 1500 * (n + 1), [line(20 + 5 * n, 20 + 5 * n, 20 + 5 * n)])),
  ),
  "planned inspection, twenty faults": job(
    0.25,
    0,
    [line(10, 15, 20)],
    many(20, (n) => found(0.1 + 0.02 * n, 1000 * n, [line(20 + 10 * n, 30 + 10 * n, 50 + 20 * n)])),
  ),
  "very uneven condition": job(
    0.6,
    10_000,
    [line(100, 150, 300), line(50, 60, 120), line(30, 45, 60)],
    [found(0.3, 10_000, [line(60, 90, 150)])],
  ),
  "soak test beside the work": job(
    0.25,
    2000,
    [line(60, 80, 150), line(120, 240, 720, false)],
    [found(0.2, 3000, [line(20, 40, 60), line(60, 120, 240, false)])],
  ),
  "fault whose part is scarce": job(
    0.25,
    2000,
    [line(60, 80, 150)],
    [found(0.4, 1500, [line(30, 45, 90)], [bought([0.7, 9000], [0.2, 15_000], [0.1, 28_000])])],
  ),
  "nearly certain fault": job(0.2, 4000, [line(60, 70, 100)], [found(0.92, 20_000, [line(60, 90, 120)])]),
  "six scarce parts": job(
    0.2,
    8000,
    [line(200, 300, 450), line(30, 50, 80)],
    [],
    many(6, (n) => bought([0.8, 4000 + 1000 * n], [0.15, 9000 + 1500 * n], [0.05, 16_000 + 2500 * n])),
  ),
  "hundred items": HUNDRED(0.25),
  "hundred items, even condition": HUNDRED(0.08),
};
