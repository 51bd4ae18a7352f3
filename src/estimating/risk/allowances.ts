/**
 * Why a price stands above the deterministic one, as three lines that sum to the difference to the minor unit. Each carries what it is expected to exceed the
 * deterministic price by, and its share of the loading (price less expected cost), shared by covariance with the total. Shares below 0 count as 0.
 */
import type { Minor } from "../input.js";
import { split } from "../money/split.js";
import { momentsOf } from "./cumulants.js";
import { deterministicPrice, type RiskModel, worth } from "./model.js";
import { totalMoments } from "./moments.js";
import { termsOf } from "./terms.js";

export interface Allowance {
  readonly is: "labour" | "sourcing" | "if found";
  readonly amount: Minor;
  /** Expected excess over the deterministic price, not rounded; what is left of `amount` is for the chance of more. */
  readonly expected: number;
}

/** In the order labour, sourcing, if found; `margin` = price - deterministic price >= 0. All 0 when nothing is uncertain and the margin is 0. */
export function allowancesFor(model: RiskModel, margin: Minor): readonly Allowance[] {
  const moments = totalMoments(termsOf(model));
  const labour = plannedExcess(model);
  const sourcing = model.sourcing.reduce((sum, part) => sum + momentsOf(part.outcomes).mean - part.priced, 0);
  const found = moments.mean - deterministicPrice(model) - labour - sourcing;
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

/** Mean less likely, over the planned labour: (low - 2 likely + high) / 6 of each line. */
const plannedExcess = (model: RiskModel): number =>
  model.labour.reduce((sum, { time, ratePerHour }) => sum + worth((time.low - 2 * time.likely + time.high) / 6, ratePerHour), 0);
