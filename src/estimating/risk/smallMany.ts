/**
 * The sum of many small terms by its first three cumulants, as X = mean + sd (-d + b Z + d Z^2) with Z standard normal: a proper distribution with exactly
 * that mean, variance and third cumulant (b^2 + 2 d^2 = 1, 6 b^2 d + 8 d^3 = skewness). Skewness is held to -2..2.
 */
import type { Moments } from "./cumulants.js";
import { hatMasses, type Masses, splitOnto, trimmed } from "./lattice.js";
import { normalCdf, normalDensity } from "./special.js";

/** Standard deviations beyond which nothing is put on the lattice. */
const REACH = 5;
/** Up to this skewness the second root of the quadratic lies beyond 5 standard deviations and is left out. */
const MILD = 0.5;

export function smallManyMasses({ mean, variance, third }: Moments, h: number, top: number): Masses {
  if (!(variance > 0)) return splitOnto([{ probability: 1, amount: mean }], h, top);
  const sd = Math.sqrt(variance);
  const skew = Math.max(-2, Math.min(2, third / (variance * sd)));
  const size = Math.abs(skew);
  const bend = bendOf(size);
  const slope = Math.sqrt(1 - 2 * bend * bend);
  const lowest = bend > 0 ? -bend - (slope * slope) / (4 * bend) : -REACH;
  const [low, high] = [Math.max(-REACH, lowest) * sd, REACH * (1 + size / 2) * sd];
  const start = mean + (skew < 0 ? -high : low);
  const end = Math.min(mean + (skew < 0 ? -low : high), top * h);
  if (sd > 1.5 * h && size < MILD) return sampled(mean, sd, slope, skew < 0 ? -bend : bend, start, end, h);
  const below = (x: number) => belowUnit((x - mean) / sd, slope, bend) * sd;
  // A left-leaning sum is the mirror image of a right-leaning one: E(x - X)+ = x - mean + E(mirrored(x) - X)+.
  return hatMasses(skew < 0 ? (x) => x - mean + below(2 * mean - x) : below, start, end, h, top);
}

/** d of the unit-variance form: 6 d - 4 d^3 = skew. */
function bendOf(skew: number): number {
  let d = skew / 6;
  for (let step = 0; step < 5; step++) d -= (6 * d - 4 * d * d * d - skew) / (6 - 12 * d * d);
  return d;
}

/** Density x h at the lattice points: for a smooth density wider than the cells as exact as its integral. */
function sampled(mean: number, sd: number, b: number, d: number, low: number, high: number, h: number): Masses {
  const from = Math.ceil(low / h);
  const mass = new Float64Array(Math.max(0, Math.floor(high / h) - from + 1));
  const step = h / sd;
  const height = step / Math.sqrt(2 * Math.PI);
  let w = (from * h - mean) / sd + d;
  for (let i = 0; i < mass.length; i++) {
    const inside = b * b + 4 * d * w;
    if (inside > 0) {
      const root = Math.sqrt(inside);
      const z = (2 * w) / (b + root);
      mass[i] = (height * Math.exp(-0.5 * z * z)) / root;
    }
    w += step;
  }
  return trimmed({ from, mass });
}

/** E(y - Y)+ for Y = -d + b Z + d Z^2: Y <= y between the two roots of the quadratic. */
function belowUnit(y: number, b: number, d: number): number {
  const w = y + d;
  const inside = b * b + 4 * d * w;
  if (inside <= 0) return 0;
  const upper = (2 * w) / (b + Math.sqrt(inside));
  const lower = d > 1e-9 ? -b / d - upper : Number.NEGATIVE_INFINITY;
  const atUpper = normalDensity(upper);
  const atLower = lower > -38 ? normalDensity(lower) : 0;
  const between = normalCdf(upper) - normalCdf(lower);
  const squares = between - upper * atUpper + (atLower === 0 ? 0 : lower * atLower);
  return w * between + b * (atUpper - atLower) - d * squares;
}
