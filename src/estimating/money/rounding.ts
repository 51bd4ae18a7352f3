/** Exact integer rounding. Every amount of the sheet is rounded by exactly one call of `divide` or `timesOver`. */
export type Rounding = "half up" | "half down" | "down";

/** numerator / denominator to a whole number; halves away from zero, or towards it, or truncated. Denominator > 0. */
export function divideWhole(numerator: bigint, denominator: bigint, mode: Rounding = "half up"): bigint {
  const negative = numerator < 0n;
  const size = negative ? -numerator : numerator;
  const whole = size / denominator;
  const twice = (size % denominator) * 2n;
  const up = mode === "half up" ? twice >= denominator : mode === "half down" ? twice > denominator : false;
  const rounded = up ? whole + 1n : whole;
  return negative ? -rounded : rounded;
}

/** The same as a number: the result must be a safe integer. */
export function divide(numerator: bigint, denominator: bigint, mode: Rounding = "half up"): number {
  return Number(divideWhole(numerator, denominator, mode));
}

/** a x b / denominator, exact until the one rounding at the end. All three are integers. */
export function timesOver(a: number, b: number, denominator: number, mode: Rounding = "half up"): number {
  const product = a * b;
  if (!Number.isSafeInteger(product)) return divide(BigInt(a) * BigInt(b), BigInt(denominator), mode);
  // Remainder and exact quotient of safe integers lose nothing, and are many times as quick.
  const size = Math.abs(product);
  const rest = size % denominator;
  const whole = (size - rest) / denominator;
  const twice = rest * 2;
  const up = mode === "half up" ? twice >= denominator : mode === "half down" ? twice > denominator : false;
  const rounded = up ? whole + 1 : whole;
  return product < 0 && rounded > 0 ? -rounded : rounded;
}
