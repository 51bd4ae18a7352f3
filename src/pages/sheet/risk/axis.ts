/** An axis of money around some amounts: where it starts and ends, and what is written along it. */
import type { Minor } from "../../../estimating/input.js";
import { ticks } from "../../../wording/index.js";

/** One more, and as few as two, where the steps fall so. */
const MOST_TICKS = 5;
/** Beyond the outermost amount, as a share of the width; and at least of the amount, for a job without risk. */
const MARGIN = 0.06;
const LEAST_MARGIN = 0.005;

export interface Axis {
  readonly from: Minor;
  readonly to: Minor;
  readonly ticks: readonly Minor[];
}

export function axisOf(amounts: readonly Minor[]): Axis {
  const [least, most] = [Math.min(...amounts), Math.max(...amounts)];
  const margin = Math.max(1, Math.round(Math.max((most - least) * MARGIN, most * LEAST_MARGIN)));
  const [from, to] = [least - margin, most + margin];
  return { from, to, ticks: ticks(from, to, MOST_TICKS) };
}
