/** Round numbers for an axis: 1, 2 or 5 times a power of ten apart, holding both ends. */
interface Axis {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
}

export function axis(low: number, high: number, most = 5): Axis {
  const span = Math.max(high - low, 1);
  const rough = 10 ** Math.floor(Math.log10(span / most));
  const step = Math.max(1, [1, 2, 5, 10].map((times) => times * rough).find((each) => span / each <= most)!);
  const [from, to] = [Math.floor(low / step) * step, Math.ceil(Math.max(high, low + 1) / step) * step];
  return { from, to, ticks: Array.from({ length: Math.round((to - from) / step) + 1 }, (_, at) => from + at * step) };
}
