/** Where a scale is marked: whole multiples of 1, 2 or 5 times a power of ten, no more than one above `most`. */
export function ticks(from: number, to: number, most: number): number[] {
  const rough = (to - from) / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = Math.max(1, power * [1, 2, 5, 10].find((times) => power * times >= rough)!);
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.floor(to / step) - first + 1 }, (_, index) => (first + index) * step);
}
