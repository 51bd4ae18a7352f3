/** A shape's percentiles and chance of loss as the engine foresees them, beside jobs drawn of the true model. */
import type { EstimateInput } from "../../../src/estimating/input.js";
import { isCharged } from "../../../src/estimating/labour/groups.js";
import { price, visitNow } from "../../../src/estimating/pricing/price.js";
import { quote, weigh } from "../../../src/estimating/pricing/quote.js";
import { workingsOf } from "../../../src/estimating/pricing/workings.js";

export const POINTS = [0.1, 0.5, 0.8, 0.95] as const;
/** A percentile lies in a gap where 0.15 points of probability more and less move it by more than a percent and a half. */
const [NEAR, GAP] = [0.0015, 0.015];

export interface Measured {
  /** Percent off at each point; `gap`: of a percentile in a gap, from the nearer end of it. */
  readonly off: readonly { readonly p: number; readonly percent: number; readonly gap: boolean }[];
  /** Chance of loss at the asked price, foreseen less drawn, in points. */
  readonly loss: number;
  readonly price: number;
  readonly ms: number;
}

export function foreseen(input: EstimateInput) {
  const from = process.cpuUsage();
  const workings = workingsOf(input);
  const counted = price(workings, workings.items.filter(isCharged), visitNow(workings.input, workings.map));
  const { total } = weigh(counted, workings);
  const asked = quote(counted, workings).used.price;
  const { user, system } = process.cpuUsage(from);
  return { total, asked, ms: (user + system) / 1000 };
}

/** `totals`: sorted. */
export function measure(input: EstimateInput, totals: Float64Array): Measured {
  const { total, asked, ms } = foreseen(input);
  const at = (p: number) => totals[Math.min(totals.length - 1, Math.max(0, Math.ceil(p * totals.length) - 1))]!;
  const off = POINTS.map((p) => {
    const figure = total.quantile(p);
    const [low, here, high] = [at(p - NEAR), at(p), at(p + NEAR)];
    const gap = high / low - 1 > GAP;
    const nearest = gap ? Math.min(high, Math.max(low, figure)) : here;
    return { p, percent: 100 * (figure / nearest - 1), gap };
  });
  const drawn = totals.findIndex((each) => each > asked);
  const lost = drawn < 0 ? 0 : 1 - drawn / totals.length;
  return { off, loss: 100 * (1 - total.atMost(asked) - lost), price: asked, ms };
}
