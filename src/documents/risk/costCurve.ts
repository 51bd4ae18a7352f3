import type { Minor } from "../../estimating/input.js";
import type { RiskSummary } from "../../estimating/sheet.js";
import { chance, ticks } from "../../wording/index.js";
import type { Subject } from "../estimate/subject.js";
import type { ChartBlock, Point } from "../layout/block.js";

const MOST_TICKS = 6;
/** Beyond the outermost amount, as a share of the width; and at least of the amount, for a job without risk. */
const MARGIN = 0.06;
const LEAST_MARGIN = 0.005;
const CHANCES = [0, 0.2, 0.4, 0.6, 0.8, 1];

/** With time and parts it is the ceiling that has to hold. */
export const priceName = ({ pricing }: RiskSummary): string => (pricing.ceiling === undefined ? "Price" : "Ceiling");

/** The chance that the job costs an amount or less, with the chosen price. */
export function costCurve(risk: RiskSummary, { tongue, cash }: Subject): ChartBlock {
  const { curve, p10, p50, p80, p95, tried } = risk;
  const price = priceName(risk);
  const amounts = [...curve.map(({ amount }) => amount), p10, p95, tried.price];
  const [least, most] = [Math.min(...amounts), Math.max(...amounts)];
  const margin = Math.max(1, Math.round(Math.max((most - least) * MARGIN, most * LEAST_MARGIN)));
  const [from, to] = [least - margin, most + margin];
  const percentage = (share: number): string => chance(share, tongue.locale);
  const marked: readonly (readonly [share: number, amount: Minor, label: string])[] = [
    [0.1, p10, "P10"],
    [0.5, p50, "P50"],
    [0.8, p80, "P80"],
    [0.95, p95, "P95"],
  ];
  return {
    is: "chart",
    alternative:
      `A curve that rises from ${cash(curve[0]?.amount ?? p10)} to ${cash(curve.at(-1)?.amount ?? p95)}: the chance that the job costs no more. ` +
      `It reaches ${marked.map(([share, amount]) => `${percentage(share)} at ${cash(amount)}`).join(", ")}. ` +
      `${price}, ${cash(tried.price)}, stands upright across it; ${percentage(tried.chanceOfLoss)} lies beyond.`,
    across: {
      title: `Cost of the job, ${risk.taxIncluded ? "tax included" : "without tax"}`,
      from,
      to,
      ticks: ticks(from, to, MOST_TICKS).map((at) => ({ at, label: cash(at) })),
    },
    up: {
      title: "Chance that the job costs no more",
      from: 0,
      to: 1,
      ticks: CHANCES.map((at) => ({ at, label: percentage(at) })),
    },
    line: lineOf(risk, from, to),
    dots: marked.map(([up, across, label]) => ({ up, across, label })),
    upright: { at: tried.price, label: `${price} ${cash(tried.price)}` },
  };
}

/** From nought to certainty; a job without risk is one step. */
function lineOf({ curve, p50 }: RiskSummary, from: Minor, to: Minor): Point[] {
  const points = curve.length === 0 ? [{ amount: p50, chance: 1 }] : curve;
  const [first, last] = [points[0]!, points.at(-1)!];
  return [
    { across: from, up: 0 },
    { across: first.amount, up: 0 },
    ...points.map(({ amount, chance: up }) => ({ across: amount, up })),
    { across: last.amount, up: 1 },
    { across: to, up: 1 },
  ];
}
