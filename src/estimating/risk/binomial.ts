/** How many of n pieces are good when each is good with the same known chance. */
import { incompleteBeta } from "./incompleteBeta.js";

/** P(at least k of n good) = I_p(k, n - k + 1) (DLMF 8.17.5). n, k whole, 0 <= p <= 1. */
export function binomialAtLeast(k: number, n: number, p: number): number {
  if (k <= 0) return 1;
  if (k > n || p <= 0) return 0;
  return incompleteBeta(p, k, n - k + 1);
}

/** P(exactly g of n good) for g = 0..n. */
export function binomialMasses(n: number, p: number): Float64Array {
  const masses = new Float64Array(n + 1);
  if (p <= 0 || p >= 1) {
    masses[p <= 0 ? 0 : n] = 1;
    return masses;
  }
  // Outwards from the mode, then normalised: nothing underflows where the mass is.
  const mode = Math.min(n, Math.floor((n + 1) * p));
  const odds = p / (1 - p);
  masses[mode] = 1;
  for (let g = mode; g < n; g++) masses[g + 1] = masses[g]! * odds * ((n - g) / (g + 1));
  for (let g = mode; g > 0; g--) masses[g - 1] = (masses[g]! * g) / ((n - g + 1) * odds);
  return normalised(masses);
}

/** Fewest pieces n with P(at least k of n good) >= level; undefined when p or the level cannot be met by any number. */
export function fewestPieces(k: number, p: number, level: number): number | undefined {
  if (k <= 0) return 0;
  if (p >= 1) return k;
  if (!(p > 0) || level >= 1) return undefined;
  let high = k;
  while (binomialAtLeast(k, high, p) < level) high *= 2;
  let low = k - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (binomialAtLeast(k, middle, p) >= level) high = middle;
    else low = middle;
  }
  return high;
}

export function normalised(masses: Float64Array): Float64Array {
  let sum = 0;
  for (const mass of masses) sum += mass;
  return masses.map((mass) => mass / sum);
}
