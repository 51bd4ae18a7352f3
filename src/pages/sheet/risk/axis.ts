/** An axis of money around some amounts: where it starts and ends, and what is written along it. */
import type { Minor } from "../../../estimating/input.js";

/** One more, and as few as two, where the steps fall so. */
const MOST_TICKS = 5;
/** Beyond the outermost amount, as a share of the width; and at least of the amount, for a job without risk. */
const MARGIN = 0.06;
const LEAST_MARGIN = 0.005;

export interface Axis {
  readonly from: Minor;
  readonly to: Minor;
  /** Whole multiples of 1, 2 or 5 times a power of ten. */
  readonly ticks: readonly Minor[];
}

export function axisOf(amounts: readonly Minor[]): Axis {
  const [least, most] = [Math.min(...amounts), Math.max(...amounts)];
  const margin = Math.max(1, Math.round(Math.max((most - least) * MARGIN, most * LEAST_MARGIN)));
  const [from, to] = [least - margin, most + margin];
  const rough = (to - from) / MOST_TICKS;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = Math.max(1, power * [1, 2, 5, 10].find((times) => power * times >= rough)!);
  const first = Math.ceil(from / step);
  return { from, to, ticks: Array.from({ length: Math.floor(to / step) - first + 1 }, (_, index) => (first + index) * step) };
}
