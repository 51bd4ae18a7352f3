/** Days to complete: the bench queue, then the longest lead time, then the work itself at the shop's weekly capacity. */
import type { Policy, RateBook } from "../input.js";
import { MILLI, toMilli } from "../money/scales.js";
import type { PartsPrice } from "../parts/priceParts.js";
import type { Days } from "../sheet.js";

const DAY = 24 * 60 * MILLI;

/** Times in thousandths of a minute. Unattended time runs day and night. */
export function daysToComplete(
  { attended, unattended }: { readonly attended: number; readonly unattended: number },
  parts: PartsPrice,
  policy: Policy,
  { calendar }: RateBook,
): Days {
  const queue = policy.benchQueueDays ?? 0;
  const lead = parts.results.reduce((longest, { leadDays }) => Math.max(longest, leadDays), 0);
  const bench = Math.ceil((7 * attended) / toMilli(calendar.weeklyBenchMinutes)) + Math.ceil(unattended / DAY);
  return { total: queue + lead + bench, queue, lead, bench };
}
