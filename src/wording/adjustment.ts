import type { Adjustment } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import { money } from "./money.js";
import { percent } from "./percent.js";
import type { Tongue } from "./tongue.js";

/** What an allowance or charge is for, such as 'Discount 10% of £200.00: returning owner'. */
export function adjustmentTitle({ sort, percent: share, base, reason }: Adjustment, tongue: Tongue): string {
  const { names, of } = (tongue.words ?? english).adjustments;
  const rate = share === undefined ? "" : ` ${percent(share, tongue.locale)}`;
  const what = share === undefined || base === undefined ? "" : ` ${of(money(base, tongue))}`;
  return `${names[sort]}${rate}${what}${reason ? `: ${reason}` : ""}`;
}
