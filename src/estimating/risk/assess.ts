/** What a shop reads about the risk of a job: plain data, amounts in whole minor units. */
import type { Minor } from "../input.js";
import { type Contribution, contributionsTo } from "./contributions.js";
import { type Distribution, distributionOf } from "./distribution.js";
import type { RiskModel } from "./model.js";

interface RiskAsk {
  /** A price to try: how often would it lose money, and how much on average. */
  readonly price?: Minor;
  /** Points of the curve; absent: no curve. */
  readonly curvePoints?: number;
  /** Percentile, 0 to 1, to explain by what contributes to it; absent: not explained. */
  readonly explain?: number;
}

export interface TriedPrice {
  readonly price: Minor;
  /** P(cost > price). */
  readonly chanceOfLoss: number;
  /** E(cost - price)+: what the price is short of, on average over all jobs. */
  readonly expectedLoss: Minor;
}

interface RiskResult {
  readonly expected: Minor;
  readonly sd: Minor;
  /** 'p of 100 jobs like this cost that or less', rounded up to the minor unit. */
  readonly p10: Minor;
  readonly p50: Minor;
  readonly p80: Minor;
  readonly p95: Minor;
  readonly tried?: TriedPrice;
  /** Chance that the job costs `amount` or less; from the first half percent to the last. */
  readonly curve: readonly { readonly amount: Minor; readonly chance: number }[];
  readonly contributions: readonly (Omit<Contribution, "takesOff"> & { readonly takesOff: Minor })[];
}

/** `total`: of the same model, where it is known already. The model must be sound (probabilities 0 to 1, low <= likely <= high, cv >= 0): the check of the input sees to that. */
export function assess(model: RiskModel, ask: RiskAsk = {}, total: Distribution = distributionOf(model)): RiskResult {
  return {
    expected: Math.round(total.expected),
    sd: Math.round(total.sd),
    p10: percentile(total, 0.1),
    p50: percentile(total, 0.5),
    p80: percentile(total, 0.8),
    p95: percentile(total, 0.95),
    ...(ask.price !== undefined && { tried: tryPrice(total, ask.price) }),
    curve: curveOf(total, ask.curvePoints ?? 0),
    contributions:
      ask.explain === undefined
        ? []
        : contributionsTo(model, ask.explain).map((each) => ({ ...each, takesOff: Math.round(each.takesOff) })),
  };
}

/** Rounded up: at least p of all jobs cost no more. Never -0. */
export const percentile = (total: Distribution, p: number): Minor => Math.ceil(total.quantile(p) - 1e-6) + 0;

export const tryPrice = (total: Distribution, price: Minor): TriedPrice => ({
  price,
  chanceOfLoss: Math.max(0, 1 - total.atMost(price)),
  expectedLoss: Math.round(total.shortfall(price)),
});

function curveOf(total: Distribution, points: number): RiskResult["curve"] {
  if (points < 2) return [];
  const [low, high] = [Math.floor(total.quantile(0.005)), Math.ceil(total.quantile(0.995))];
  return Array.from({ length: points }, (_, index) => {
    const amount = Math.round(low + ((high - low) * index) / (points - 1));
    return { amount, chance: total.atMost(amount) };
  });
}
