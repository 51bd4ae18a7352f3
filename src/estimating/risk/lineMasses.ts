/** One beta-PERT line, and sums of them, on the lattice. */
import { incompleteBeta, lnBeta } from "./incompleteBeta.js";
import { convolve, hatMasses, type Masses, splitOnto } from "./lattice.js";
import type { Line } from "./line.js";
import { pertMean, pertShape } from "./pert.js";

export function lineMasses(line: Line, h: number, top: number): Masses {
  const shape = pertShape(line);
  if (shape === undefined) return splitOnto([{ probability: 1, amount: line.low }], h, top);
  const { alpha, beta } = shape;
  const { low, high } = line;
  const width = high - low;
  const mean = pertMean(line);
  const lnB = lnBeta(alpha, beta);
  /** E(x - X)+ by the partial expectation of the beta: I_u(alpha + 1, beta) = I_u(alpha, beta) - u^alpha (1 - u)^beta / (alpha B). */
  const below = (x: number) => {
    if (x <= low) return 0;
    if (x >= high) return x - mean;
    const u = (x - low) / width;
    const chance = incompleteBeta(u, alpha, beta, lnB);
    const edge = Math.exp(alpha * Math.log(u) + beta * Math.log1p(-u) - lnB) / alpha;
    return (x - low) * chance - width * (alpha / 6) * (chance - edge);
  };
  return hatMasses(below, low, high, h, top);
}

export const sumOfLines = (lines: readonly Line[], h: number, top: number): Masses | undefined =>
  lines.reduce<Masses | undefined>((sum, line) => {
    const masses = lineMasses(line, h, top);
    return sum === undefined ? masses : convolve(sum, masses, top);
  }, undefined);
