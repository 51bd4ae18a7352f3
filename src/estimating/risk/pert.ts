/** Three-point times as a beta-PERT distribution: alpha = 1 + 4 (likely - low) / (high - low), beta = 6 - alpha. Units: those of the points. */
import type { ThreePoint } from "../input.js";
import { incompleteBeta, lnBeta } from "./incompleteBeta.js";

/** Shape of the beta distribution on low..high; alpha + beta is always 6. Undefined when low = high: the time is certain. */
export function pertShape({ low, likely, high }: ThreePoint): { readonly alpha: number; readonly beta: number } | undefined {
  if (!(high > low)) return undefined;
  const alpha = 1 + (4 * (likely - low)) / (high - low);
  return { alpha, beta: 6 - alpha };
}

/** (low + 4 likely + high) / 6: exact for the beta-PERT, and the classic three-point mean (Malcolm et al. 1959, from memory). */
export const pertMean = ({ low, likely, high }: ThreePoint): number => (low + 4 * likely + high) / 6;

/** (high - low) / 6, the classic rule of thumb. It is not the standard deviation of the beta with that mean. */
export const classicSd = ({ low, high }: ThreePoint): number => (high - low) / 6;

/** Second cumulant: (mean - low)(high - mean) / 7. */
export function pertVariance(points: ThreePoint): number {
  const mean = pertMean(points);
  return Math.max(0, ((mean - points.low) * (points.high - mean)) / 7);
}

/** Third cumulant (skewness x sd cubed): (high - low)^3 alpha beta (beta - alpha) / 6048. */
export function pertThird(points: ThreePoint): number {
  const shape = pertShape(points);
  return shape === undefined
    ? 0
    : ((points.high - points.low) ** 3 * shape.alpha * shape.beta * (shape.beta - shape.alpha)) / 6048;
}

/** P(time <= x). */
export function pertCdf(points: ThreePoint, x: number): number {
  const shape = pertShape(points);
  if (shape === undefined) return x >= points.low ? 1 : 0;
  return incompleteBeta((x - points.low) / (points.high - points.low), shape.alpha, shape.beta);
}

/** x with P(time <= x) = p: bisection sharpened by Newton steps that stay inside the bracket. */
export function pertQuantile(points: ThreePoint, p: number): number {
  const shape = pertShape(points);
  if (shape === undefined || p <= 0) return points.low;
  if (p >= 1) return points.high;
  const { alpha, beta } = shape;
  const lnB = lnBeta(alpha, beta);
  let [low, high, u] = [0, 1, alpha / 6];
  for (let step = 0; step < 100 && high - low > 1e-16; step++) {
    const off = incompleteBeta(u, alpha, beta, lnB) - p;
    if (off === 0) break;
    if (off > 0) high = u;
    else low = u;
    const density = Math.exp((alpha - 1) * Math.log(u) + (beta - 1) * Math.log1p(-u) - lnB);
    const next = u - off / density;
    const inside = next > low && next < high;
    if (inside && Math.abs(next - u) < 1e-16) break;
    u = inside ? next : (low + high) / 2;
  }
  return points.low + u * (points.high - points.low);
}
