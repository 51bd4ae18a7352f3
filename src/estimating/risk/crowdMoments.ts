/** Cumulants of the crowd and of the certain labour, for any condition factor c: each a cubic in c, so its values at c = 0, 1, 2, 3 tell all. */
import type { Group } from "./crowd.js";
import { ifFound, type Moments, sumOf, times } from "./cumulants.js";

export function crowdMoments(sure: number, { lines, steady, lumps, draws }: Group): (c: number) => Moments {
  const labour = sumOf(lines);
  const unmoved = sumOf([...steady, ...draws]);
  const at = [0, 1, 2, 3].map((c) => {
    const found = sumOf(lumps.map((lump) => ifFound(sumOf([times(lump.labour, c), lump.other]), lump.probability)));
    const { mean, variance, third } = sumOf([times(labour, c), unmoved, found]);
    return { mean: mean + c * sure, variance, third };
  });
  return (c) => {
    const weights = [
      -((c - 1) * (c - 2) * (c - 3)) / 6,
      (c * (c - 2) * (c - 3)) / 2,
      -(c * (c - 1) * (c - 3)) / 2,
      (c * (c - 1) * (c - 2)) / 6,
    ];
    const cubic = (of: keyof Moments) => weights.reduce((sum, weight, node) => sum + weight * at[node]![of], 0);
    return { mean: cubic("mean"), variance: Math.max(0, cubic("variance")), third: cubic("third") };
  };
}
