/** What the curve and its table point out: four percentiles and the price tried, by amount. */
import type { Minor } from "../../../estimating/input.js";
import type { RiskSummary } from "../../../estimating/sheet.js";

export interface Mark {
  readonly name: string;
  /** 0 to 1: that the job costs the amount or less. */
  readonly chance: number;
  readonly amount: Minor;
  readonly tried?: true;
}

export const marksOf = ({ p10, p50, p80, p95, tried, pricing }: RiskSummary): readonly Mark[] => {
  const marks: Mark[] = [
    { name: "P10", chance: 0.1, amount: p10 },
    { name: "P50", chance: 0.5, amount: p50 },
    { name: "P80", chance: 0.8, amount: p80 },
    { name: "P95", chance: 0.95, amount: p95 },
    // With time and parts it is the ceiling that has to hold.
    {
      name: pricing.ceiling === undefined ? "Price" : "Ceiling",
      chance: 1 - tried.chanceOfLoss,
      amount: tried.price,
      tried: true,
    },
  ];
  return marks.sort((a, b) => a.amount - b.amount || a.chance - b.chance);
};
