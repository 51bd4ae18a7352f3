/** How many of n pieces are good when the share good is itself uncertain: Beta(good, bad), shared by all n. A fixed share is optimistic. */
import { normalised } from "./binomial.js";

/** P(exactly g of n good) for g = 0..n; good, bad > 0. */
export function betaBinomialMasses(n: number, good: number, bad: number): Float64Array {
  const ratio = (g: number) => ((n - g) * (good + g)) / ((g + 1) * (n - g - 1 + bad));
  const guess = good + bad > 2 ? (n * (good - 1)) / (good + bad - 2) : n / 2;
  const start = Math.max(0, Math.min(n, Math.round(guess)));
  const masses = new Float64Array(n + 1);
  masses[start] = 1;
  for (let g = start; g < n; g++) masses[g + 1] = masses[g]! * ratio(g);
  for (let g = start; g > 0; g--) masses[g - 1] = masses[g]! / ratio(g - 1);
  return normalised(masses);
}

/** P(at least k of n good). */
export function betaBinomialAtLeast(k: number, n: number, good: number, bad: number): number {
  if (k <= 0) return 1;
  if (k > n) return 0;
  const masses = betaBinomialMasses(n, good, bad);
  let sum = 0;
  for (let g = n; g >= k; g--) sum += masses[g]!;
  return Math.min(1, sum);
}
