/** The amount above which the shop may not go without a new agreement. */
import type { Minor, Policy, RateBook } from "../input.js";
import type { AgreementProfile } from "../law/profile.js";
import { percentOf } from "../money/scales.js";
import { isFixed } from "../pricing/quote.js";
import type { Sheet } from "../sheet.js";

/** Tax included. `allFound`: the total if all that may be found is; `priced`: where the pricing sets the ceiling. */
export function ceilingOver(
  total: Minor,
  allFound: () => Minor,
  policy: Policy,
  rateBook: RateBook,
  profile: AgreementProfile,
  priced?: { readonly amount: Minor; readonly net: Minor },
): Sheet["ceiling"] {
  if (policy.ceiling !== undefined) return { amount: policy.ceiling, from: { is: "rule", rule: "ceiling set by owner" } };
  const shops = priced?.amount ?? shopsCeiling(total, rateBook);
  const allowed = stopsAbove(profile) ? Math.max(withTolerance(total, profile), allFound()) : shops;
  return allowed < shops
    ? { amount: allowed, from: { is: "rule", rule: "ceiling by agreement profile" } }
    : priced
      ? { ...priced, from: { is: "rule", rule: isFixed(policy) ? "price is fixed" : "ceiling for what may turn up" } }
      : { amount: shops, from: { is: "rule", rule: "ceiling above total" } };
}

/** Whether the profile bounds the bill by the estimated amount, so that the shop's own headroom does not count. */
export const stopsAbove = ({ toleranceOn, tolerancePercent }: AgreementProfile): boolean =>
  toleranceOn === "estimate" && tolerancePercent !== null;

/** Any amount in minor units, with tax or without. */
export const shopsCeiling = (amount: Minor, { ceiling }: RateBook): Minor => amount + percentOf(amount, ceiling.abovePercent);

/** Fractions are dropped: a tolerance is never passed by rounding. */
export const withTolerance = (amount: Minor, { tolerancePercent }: AgreementProfile): Minor =>
  amount + percentOf(amount, tolerancePercent ?? 0, "down");
