/** What the owner is quoted, by the shop's policy. Money = minor units, net of tax. */
import type { Minor, Percent } from "../input.js";
import { percentile, type TriedPrice, tryPrice } from "./assess.js";
import type { Distribution } from "./distribution.js";

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
