/** What a drawing of a job's risk shows, on the page and on paper alike: the axis of money, the points of the curve, and the marks on it with their names. */
import type { Minor } from "../estimating/input.js";
import type { RiskSummary } from "../estimating/sheet.js";
import { ticks } from "./figures.js";

export interface Mark {
  readonly name: string;
  /** 0 to 1: that the job costs the amount or less. */
  readonly chance: number;
  readonly amount: Minor;
  readonly tried?: true;
}

interface Axis {
  readonly from: Minor;
  readonly to: Minor;
  readonly ticks: readonly Minor[];
}

interface RiskCurve {
  readonly axis: Axis;
  /** From nought at the axis' start to the last amount that is worked out, and on where that is certain. */
  readonly points: RiskSummary["curve"];
  /** By amount. */
  readonly marks: readonly Mark[];
}

export function riskCurve(risk: RiskSummary, mostTicks: number): RiskCurve {
  const marks = marksOf(risk);
  // A job without risk is one step.
  const curve = risk.curve.length === 0 ? [{ amount: risk.p50, chance: 1 }] : risk.curve;
  const axis = axisOf(
    [...curve, ...marks].map(({ amount }) => amount),
    mostTicks,
  );
  const [first, last] = [curve[0]!, curve.at(-1)!];
  const start = [axis.from, first.amount].map((amount) => ({ amount, chance: 0 }));
  return { axis, points: [...start, ...curve, ...(last.chance < 1 ? [] : [{ amount: axis.to, chance: 1 }])], marks };
}

/** With time and parts it is the ceiling that has to hold. */
export const heldName = ({ pricing }: Pick<RiskSummary, "pricing">): "Price" | "Ceiling" =>
  pricing.ceiling === undefined ? "Price" : "Ceiling";

/** Four percentiles and the price tried. */
export function marksOf(risk: RiskSummary): readonly Mark[] {
  const { p10, p50, p80, p95, tried } = risk;
  const marks: Mark[] = [
    { name: "P10", chance: 0.1, amount: p10 },
    { name: "P50", chance: 0.5, amount: p50 },
    { name: "P80", chance: 0.8, amount: p80 },
    { name: "P95", chance: 0.95, amount: p95 },
    { name: heldName(risk), chance: 1 - tried.chanceOfLoss, amount: tried.price, tried: true },
  ];
  return marks.sort((a, b) => a.amount - b.amount || a.chance - b.chance);
}

/** Beyond the outermost amount, as a share of the width; and at least of the amount, for a job without risk. */
const MARGIN = 0.06;
const LEAST_MARGIN = 0.005;

/** `mostTicks`: one more, and as few as two, where the steps fall so. */
export function axisOf(amounts: readonly Minor[], mostTicks: number): Axis {
  const [least, most] = [Math.min(...amounts), Math.max(...amounts)];
  const margin = Math.max(1, Math.round(Math.max((most - least) * MARGIN, most * LEAST_MARGIN)));
  const [from, to] = [least - margin, most + margin];
  return { from, to, ticks: ticks(from, to, mostTicks) };
}
