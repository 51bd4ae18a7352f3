/** Minutes at the bench and beside it, before and after billing steps. */
import { inMinutes, sumOfTimes, type Times } from "../labour/times.js";
import { fromMilli, toMilli } from "../money/scales.js";
import type { Priced } from "../price.js";
import type { TimeResult } from "../sheet.js";

/** In thousandths of a minute. */
export function milliTaken({ access, labour }: Priced): { readonly attended: Times; readonly unattended: number } {
  const all = [...access, ...labour];
  return {
    attended: sumOfTimes(all.filter(({ attended }) => attended).map(({ times }) => times)),
    unattended: all.filter(({ attended }) => !attended).reduce((sum, { times }) => sum + times.likely, 0),
  };
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
