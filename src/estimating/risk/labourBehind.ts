/** How much labour to expect in a given total at condition c: the straight line of labour on the total, from exact moments. */
import { sumOf } from "./cumulants.js";
import type { Terms } from "./terms.js";

/** Labour at factor 1, in cells, expected in the amount at lattice index i: at0 + perCell x i, never below 0. */
export interface LabourLine {
  readonly at0: number;
  readonly perCell: number;
}

export function labourBehind(terms: Terms, h: number): (c: number) => LabourLine {
  const lines = sumOf(terms.lines);
  const unmoved = sumOf([...terms.steady, ...terms.draws]);
  let labour = terms.sure + lines.mean;
  let labourVariance = lines.variance;
  let both = 0;
  let other = unmoved.mean;
  let otherVariance = unmoved.variance;
  for (const { probability: p, labour: l, other: q } of terms.lumps) {
    labour += p * l.mean;
    labourVariance += p * (l.variance + l.mean * l.mean) - (p * l.mean) ** 2;
    both += p * (1 - p) * l.mean * q.mean;
    other += p * q.mean;
    otherVariance += p * (q.variance + q.mean * q.mean) - (p * q.mean) ** 2;
  }
  return (c) => {
    const variance = c * c * labourVariance + 2 * c * both + otherVariance;
    const perCell = variance > 0 ? (c * labourVariance + both) / variance : 0;
    return { at0: (labour - perCell * (c * labour + other)) / h, perCell };
  };
}
