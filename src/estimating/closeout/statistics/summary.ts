/** Mean, spread and middle of a list of figures, in the figures' own unit. Each is undefined where the list is too short for it. */

export function mean(values: readonly number[]): number | undefined {
  if (values.length === 0) return undefined;
  const rough = sumOf(values) / values.length;
  // The second pass takes back what rounding lost in the first.
  return rough + sumOf(values, (value) => value - rough) / values.length;
}

/** With n - 1; the mean's own rounding is taken back (Chan, Golub and LeVeque, The American Statistician 37, 1983; from memory). */
export function standardDeviation(values: readonly number[]): number | undefined {
  if (values.length < 2) return undefined;
  const centre = mean(values)!;
  const off = sumOf(values, (value) => value - centre);
  const square = sumOf(values, (value) => (value - centre) ** 2) - (off * off) / values.length;
  return Math.sqrt(Math.max(0, square) / (values.length - 1));
}

/** Of an even number, the mean of the middle two. */
export function median(values: readonly number[]): number | undefined {
  if (values.length === 0) return undefined;
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

function sumOf(values: readonly number[], of?: (value: number) => number): number {
  let sum = 0;
  for (const value of values) sum += of ? of(value) : value;
  return sum;
}
