/** Student's t distribution, through the incomplete beta function. */
import { incompleteBeta } from "../../risk/incompleteBeta.js";
import { betaQuantile } from "./betaQuantile.js";

/** P(T <= t) with `df` > 0 degrees of freedom, whole or not: 1 - I_x(df/2, 1/2) / 2 for t > 0, x = df / (df + t^2) (DLMF 8.17, from memory). */
export function studentTCdf(t: number, df: number): number {
  const square = t * t;
  const inner = incompleteBeta(square / (df + square), 0.5, df / 2) / 2;
  const outer = incompleteBeta(df / (df + square), df / 2, 0.5) / 2;
  return t > 0 ? (square < df ? 0.5 + inner : 1 - outer) : square < df ? 0.5 - inner : outer;
}

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
