/** How many times something turns up when it does so at a known mean number, each time independently. */

/** P(at most n times). */
export function poissonAtMost(n: number, mean: number): number {
  let term = Math.exp(-mean);
  let sum = 0;
  for (let times = 0; times <= n; times++) {
    sum += term;
    term *= mean / (times + 1);
  }
  return Math.min(1, sum);
}

/** Fewest spares with P(no more turn up than that) >= level, 0 <= level < 1. */
export function fewestSpares(mean: number, level: number): number {
  let spares = 0;
  while (poissonAtMost(spares, mean) < level) spares++;
  return spares;
}
