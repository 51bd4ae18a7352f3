import type { RiskSummary } from "../../estimating/sheet.js";
import { chance } from "../../wording/figures.js";
import { heldName, riskCurve } from "../../wording/riskCurve.js";
import type { Subject } from "../estimate/subject.js";
import type { ChartBlock } from "../layout/block.js";

const MOST_TICKS = 6;
const CHANCES = [0, 0.2, 0.4, 0.6, 0.8, 1];

/** The chance that the job costs an amount or less, with the chosen price. */
export function costCurve(risk: RiskSummary, { tongue, cash }: Subject): ChartBlock {
  const { curve, p10, p95, tried } = risk;
  const price = heldName(risk);
  const { axis, points, marks } = riskCurve(risk, MOST_TICKS);
  const percentiles = marks.filter((mark) => !mark.tried);
  const percentage = (share: number): string => chance(share, tongue.locale);
  return {
    is: "chart",
    alternative:
      `A curve that rises from ${cash(curve[0]?.amount ?? p10)} to ${cash(curve.at(-1)?.amount ?? p95)}: the chance that the job costs no more. ` +
      `It reaches ${percentiles.map((mark) => `${percentage(mark.chance)} at ${cash(mark.amount)}`).join(", ")}. ` +
      `${price}, ${cash(tried.price)}, stands upright across it; ${percentage(tried.chanceOfLoss)} lies beyond.`,
    across: {
      title: `Cost of the job, ${risk.taxIncluded ? "tax included" : "without tax"}`,
      from: axis.from,
      to: axis.to,
      ticks: axis.ticks.map((at) => ({ at, label: cash(at) })),
    },
    up: {
      title: "Chance that the job costs no more",
      from: 0,
      to: 1,
      ticks: CHANCES.map((at) => ({ at, label: percentage(at) })),
    },
    line: points.map((point) => ({ across: point.amount, up: point.chance })),
    dots: percentiles.map((mark) => ({ up: mark.chance, across: mark.amount, label: mark.name })),
    upright: { at: tried.price, label: `${price} ${cash(tried.price)}` },
  };
}
