/** The unit-condition factor: lognormal with mean 1, cut into strata of equal width in z, each with its exact mass and mean. */
import { normalCdf } from "./special.js";

export interface Stratum {
  /** Share of units in this stratum. */
  readonly mass: number;
  /** Mean of the factor within it. */
  readonly mean: number;
  readonly from: number;
  readonly to: number;
}

/** Strata reach this many standard deviations of ln C to either side; the outer two take the 3 in 10,000 that lie beyond. */
export const STRATA_REACH = 3.6;

/** sigma of ln C: sqrt(ln(1 + cv^2)). */
export const conditionSigma = (cv: number): number => Math.sqrt(Math.log1p(cv * cv));

/** The factor at z: exp(z sigma - sigma^2 / 2). */
export const conditionAt = (z: number, sigma: number): number => Math.exp(z * sigma - (sigma * sigma) / 2);

/** Ascending. cv = 0: one stratum at exactly 1. Mass and mean: w = Phi(b) - Phi(a), c = (Phi(b - s) - Phi(a - s)) / w. */
export function conditionStrata(cv: number, count: number): readonly Stratum[] {
  if (!(cv > 0)) return [{ mass: 1, mean: 1, from: 1, to: 1 }];
  const sigma = conditionSigma(cv);
  const width = (2 * STRATA_REACH) / count;
  const edge = (index: number, reach: number) => (index === 0 ? -reach : index === count ? reach : index * width - STRATA_REACH);
  return Array.from({ length: count }, (_, index) => {
    const [a, b] = [edge(index, Number.POSITIVE_INFINITY), edge(index + 1, Number.POSITIVE_INFINITY)];
    const mass = between(a, b);
    return {
      mass,
      mean: between(a - sigma, b - sigma) / mass,
      from: conditionAt(edge(index, STRATA_REACH), sigma),
      to: conditionAt(edge(index + 1, STRATA_REACH), sigma),
    };
  });
}

/** P(a < Z < b), taken in the tail where it keeps its figures. */
const between = (a: number, b: number): number => (a > 0 ? normalCdf(-a) - normalCdf(-b) : normalCdf(b) - normalCdf(a));
