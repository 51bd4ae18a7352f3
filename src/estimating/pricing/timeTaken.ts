/** Minutes at the bench and beside it, before and after billing steps. */
import { inMinutes, type Times } from "../labour/times.js";
import { fromMilli, toMilli } from "../money/scales.js";
import type { TimeResult } from "../sheet.js";
import type { Priced } from "./workings.js";

/** In thousandths of a minute. */
export function milliTaken({ access, labour }: Priced): { readonly attended: Times; readonly unattended: number } {
  let [low, likely, high, unattended] = [0, 0, 0, 0];
  // Asked for every price there is: one walk, nothing made on the way.
  for (const lines of [access, labour])
    for (const { attended, times } of lines)
      if (attended) {
        low += times.low;
        likely += times.likely;
        high += times.high;
      } else unattended += times.likely;
  return { attended: { low, likely, high }, unattended };
}

/** `billed` is the sum of the minutes on the lines. */
export function timeTaken(priced: Priced): TimeResult {
  const { attended, unattended } = milliTaken(priced);
  const billed = priced.lines.reduce((sum, { minutes = 0 }) => sum + toMilli(minutes), 0);
  return {
    attended: fromMilli(attended.likely),
    unattended: fromMilli(unattended),
    billed: fromMilli(billed),
    spread: inMinutes(attended),
  };
}
