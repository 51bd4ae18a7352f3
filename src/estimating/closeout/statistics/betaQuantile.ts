/** Quantiles of the beta distribution: for shares learnt from counts, and for what rests on them. */
import { incompleteBeta, lnBeta } from "../../risk/incompleteBeta.js";

/** x with I_x(a, b) = p, for a, b > 0: Newton steps kept inside a bracket that is halved when they leave it. */
export function betaQuantile(p: number, a: number, b: number): number {
  if (p <= 0) return 0;
  if (p >= 1) return 1;
  const lnB = lnBeta(a, b);
  let [low, high, x] = [0, 1, a / (a + b)];
  for (let step = 0; step < 400; step++) {
    const off = incompleteBeta(x, a, b, lnB) - p;
    if (off === 0) return x;
    if (off > 0) high = x;
    else low = x;
    const density = Math.exp((a - 1) * Math.log(x) + (b - 1) * Math.log1p(-x) - lnB);
    const next = x - off / density;
    const last = x;
    x = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(x - last) <= 1e-15 * x || high - low <= 1e-16 * high) return x;
  }
  return x;
}
