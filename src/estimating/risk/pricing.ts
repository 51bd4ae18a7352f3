/** What the owner is quoted, by the shop's policy, and why it stands above the deterministic price. Money = minor units, net of tax. */
import type { Minor, Percent } from "../input.js";
import { split } from "../money/split.js";
import { percentile, type TriedPrice, tryPrice } from "./assess.js";
import { momentsOf } from "./cumulants.js";
import type { Distribution } from "./distribution.js";
import { deterministicPrice, type RiskModel, worth } from "./model.js";
import { totalMoments } from "./moments.js";
import { termsOf } from "./terms.js";

type PricingPolicy = {
  /** Least share of the price, in percent, that must be left over the expected cost. */
  readonly minimumMarginPercent?: Percent;
} & (
  | { readonly is: "fixed price"; readonly confidencePercent: Percent }
  /** The deterministic price is the estimate; the ceiling holds at the confidence. */
  | { readonly is: "time and parts with ceiling"; readonly confidencePercent: Percent }
  /** The expected cost and so many percent of it (a mark-up: 25 % on cost leaves 20 % of the price). */
  | { readonly is: "expected cost plus"; readonly percent: Percent }
);

interface Pricing {
  readonly price: Minor;
  /** Time and parts only: the shop bears what lies above. */
  readonly ceiling?: Minor;
  /** How much of the price, or the ceiling, is set against no risk: the margin asked for over the expected cost. */
  readonly margin: Minor;
  /** Why the price, or the ceiling, is higher than the policy alone would have it. */
  readonly raisedTo?: "deterministic price" | "minimum margin";
  /** How often the most the owner can be asked for does not cover the shop's cost. */
  readonly tried: TriedPrice;
}

/**
 * `total`: the job at what the owner is charged; `cost`: the same at what it costs the shop (the same distribution when the shop keeps no cost rates).
 * A price is never below the deterministic one, so that no allowance is negative: a least charge or a billing step may lie above the percentile.
 */
export function priceBy(policy: PricingPolicy, total: Distribution, deterministic: Minor, cost: Distribution = total): Pricing {
  const expectedAnd = (percent: Percent) => Math.ceil(total.expected * (1 + percent / 100) - 1e-6);
  const [forRisk, wanted] =
    policy.is === "expected cost plus"
      ? [expectedAnd(0), expectedAnd(policy.percent)]
      : [percentile(total, policy.confidencePercent / 100), percentile(total, policy.confidencePercent / 100)];
  const guard = Math.ceil(cost.expected / (1 - (policy.minimumMarginPercent ?? 0) / 100) - 1e-6);
  const least = policy.minimumMarginPercent === undefined ? 0 : guard;
  const most = Math.max(wanted, deterministic, least);
  const raisedTo = most === wanted ? undefined : most === deterministic ? "deterministic price" : "minimum margin";
  return {
    price: policy.is === "time and parts with ceiling" ? deterministic : most,
    ...(policy.is === "time and parts with ceiling" && { ceiling: most }),
    margin: most - Math.max(forRisk, deterministic),
    ...(raisedTo && { raisedTo }),
    tried: tryPrice(cost, most),
  };
}

export interface Allowance {
  readonly is: "labour" | "sourcing" | "if found";
  readonly amount: Minor;
  /** Expected excess over the deterministic price, not rounded; what is left of `amount` is for the chance of more. */
  readonly expected: number;
}

/**
 * Why a price stands above the deterministic one, as three lines that sum to the difference to the minor unit. Each carries what it is expected to exceed the
 * deterministic price by, and its share of the loading (price less expected cost), shared by covariance with the total. Shares below 0 count as 0.
 * In the order labour, sourcing, if found; `margin` = price - deterministic price >= 0, of which `certain` is work that is certain to be found. All 0 when nothing
 * is uncertain and the margin is 0.
 */
export function allowancesFor(model: RiskModel, margin: Minor, certain: Minor = 0): readonly Allowance[] {
  const moments = totalMoments(termsOf(model));
  const labour = plannedExcess(model);
  const sourcing = model.sourcing.reduce((sum, part) => sum + momentsOf(part.outcomes).mean - part.priced, 0);
  const found = moments.mean - deterministicPrice(model) - labour - sourcing + certain;
  const loading = margin - (labour + sourcing + found);
  const share = (covariance: number) => (moments.variance > 0 ? covariance / moments.variance : 0);
  const parts = [
    { is: "labour", expected: labour, covariance: moments.labour },
    { is: "sourcing", expected: sourcing, covariance: moments.sourcing },
    { is: "if found", expected: found, covariance: moments.found },
  ] as const;
  const weights = parts.map(({ expected, covariance }) =>
    Math.max(0, Math.round(1000 * (expected + loading * share(covariance)))),
  );
  const amounts = split(margin, weights);
  return parts.map(({ is, expected }, index) => ({ is, amount: amounts[index]!, expected }));
}

/** Mean less what is charged, over the planned labour: where that is the likely time, (low - 2 likely + high) / 6 of each line. */
const plannedExcess = (model: RiskModel): number =>
  model.charged === "expected"
    ? 0
    : model.labour.reduce(
        (sum, { time, ratePerHour }) => sum + worth((time.low - 2 * time.likely + time.high) / 6, ratePerHour),
        0,
      );
