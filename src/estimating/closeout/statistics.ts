/** Mean, spread and middle of a list of figures, in the figures' own unit, each undefined where the list is too short for it; quantiles. */
import { incompleteBeta, lnBeta } from "../risk/special.js";

export function mean(values: readonly number[]): number | undefined {
  if (values.length === 0) return undefined;
  const rough = sumOf(values) / values.length;
  // The second pass takes back what rounding lost in the first.
  return rough + sumOf(values, (value) => value - rough) / values.length;
}

/** With n - 1; the mean's own rounding is taken back (Chan, Golub and LeVeque, The American Statistician 37, 1983; from memory). */
export function standardDeviation(values: readonly number[]): number | undefined {
  if (values.length < 2) return undefined;
  const centre = mean(values)!;
  const off = sumOf(values, (value) => value - centre);
  const square = sumOf(values, (value) => (value - centre) ** 2) - (off * off) / values.length;
  return Math.sqrt(Math.max(0, square) / (values.length - 1));
}

/** Of an even number, the mean of the middle two. */
export function median(values: readonly number[]): number | undefined {
  if (values.length === 0) return undefined;
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

function sumOf(values: readonly number[], of?: (value: number) => number): number {
  let sum = 0;
  for (const value of values) sum += of ? of(value) : value;
  return sum;
}

/** Of the beta distribution, for shares learnt from counts and what rests on them: x with I_x(a, b) = p, for a, b > 0: Newton steps kept inside a bracket that is halved when they leave it. */
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

/** Of Student's t: t with P(T <= t) = p, 0 < p < 1; `df` > 0 degrees of freedom, whole or not (DLMF 8.17, from memory). */
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

/** How sure a counted share is. */
export interface ShareInterval {
  readonly low: number;
  readonly high: number;
}

/** Clopper and Pearson, Biometrika 26 (1934), from memory: exact, so it holds the true share at least as often as `level` says. Needs of > 0. */
export function shareInterval(within: number, of: number, level = 0.95): ShareInterval {
  const tail = (1 - level) / 2;
  return {
    low: within === 0 ? 0 : betaQuantile(tail, within, of - within + 1),
    high: within === of ? 1 : betaQuantile(1 - tail, within + 1, of - within),
  };
}
