/** Shrinkage: how much the rate book itself weighs against what was observed. */
export interface Strength {
  /** Observations that a standard's mean counts for. */
  readonly mean: number;
  /** Half the observations that its spread counts for, and the same for a grade; above 1. */
  readonly spread: number;
}
export const USUAL_STRENGTH: Strength = { mean: 4, spread: 3 };
