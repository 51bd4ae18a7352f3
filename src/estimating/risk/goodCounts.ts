/** How many of n pieces are good, and how many it takes until k are. */

/** P(exactly g of n good) for g = 0..n, each good with the same known chance. */
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

function normalised(masses: Float64Array): Float64Array {
  let sum = 0;
  for (const mass of masses) sum += mass;
  return masses.map((mass) => mass / sum);
}

/** The same when the share good is itself uncertain: Beta(good, bad), shared by all n; good, bad > 0. A fixed share is optimistic. */
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

/** Pieces bought, one at a time until k are good, each with chance p: on average. */
export const drawsMean = (k: number, p: number): number => k / p;
