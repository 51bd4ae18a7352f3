/** Student's t distribution, through the incomplete beta function. */
import { betaQuantile } from "./betaQuantile.js";

/** t with P(T <= t) = p, 0 < p < 1. */
export function studentTQuantile(p: number, df: number): number {
  if (p < 0.5) return -studentTQuantile(1 - p, df);
  if (p === 0.5) return 0;
  const both = 2 * (1 - p);
  if (both > 0.5) {
    const y = betaQuantile(1 - both, 0.5, df / 2);
    return Math.sqrt((df * y) / (1 - y));
  }
  const x = betaQuantile(both, df / 2, 0.5);
  return Math.sqrt((df * (1 - x)) / x);
}
