/** Labour on the lattice: one beta-PERT line, sums of them, and what is found. */

import type { Cost } from "./cluster.js";
import { twoPoint } from "./cumulants.js";
import { convolve, hatMasses, type Masses, scaled, splitOnto } from "./lattice.js";
import { type Line, pertMean, pertShape } from "./line.js";
import { incompleteBeta, lnBeta } from "./special.js";

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

/**
 * What a lump costs when it is found, for any condition factor. `lowestFactor`: the least c that will be asked for. Labour by two points when the gap between them drowns in the `smooth` spread of the total, else
 * by its whole shape; parts by their outcomes.
 */
export function foundMasses(lump: Cost, smooth: number, h: number, top: number, lowestFactor: number): (c: number) => Masses {
  const points = twoPoint(lump.labour);
  const gap = points.length < 2 ? 0 : points[1]!.amount - points[0]!.amount;
  const labour = gap > smooth ? sumOfLines(lump.lines, h, Math.ceil(top / lowestFactor)) : undefined;
  if (labour !== undefined) {
    const other = splitOnto(lump.otherChances, h, top);
    return (c) => convolve(scaled(labour, c, top), other, top);
  }
  const pairs = points.flatMap((a) =>
    lump.otherChances.map((b) => ({ probability: a.probability * b.probability, labour: a.amount, other: b.amount })),
  );
  return (c) =>
    splitOnto(
      pairs.map((pair) => ({ probability: pair.probability, amount: c * pair.labour + pair.other })),
      h,
      top,
    );
}
