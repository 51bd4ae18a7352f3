/** How sure a counted share is. */
import { betaQuantile } from "./betaQuantile.js";

export interface ShareInterval {
  readonly low: number;
  readonly high: number;
}

/** Clopper and Pearson, Biometrika 26 (1934), from memory: exact, so it holds the true share at least as often as `level` says. Needs of > 0. */
export function shareInterval(within: number, of: number, level = 0.95): ShareInterval {
  const tail = (1 - level) / 2;
  return {
    low: within === 0 ? 0 : betaQuantile(tail, within, of - within + 1),
    high: within === of ? 1 : betaQuantile(1 - tail, within + 1, of - within),
  };
}
