import type { Adjustment } from "../estimating/sheet.js";
import { money } from "./money.js";
import { percent } from "./percent.js";
import type { Tongue } from "./tongue.js";

const NAME: Readonly<Record<Adjustment["sort"], string>> = {
  discount: "Discount",
  sundries: "Sundries",
  freight: "Freight",
  rush: "Rush charge",
};

/** What an allowance or charge is for, such as 'Discount 10% of £200.00: returning owner'. */
export function adjustmentTitle({ sort, percent: share, base, reason }: Adjustment, tongue: Tongue): string {
  const rate = share === undefined ? "" : ` ${percent(share, tongue.locale)}`;
  const of = share === undefined || base === undefined ? "" : ` of ${money(base, tongue)}`;
  return `${NAME[sort]}${rate}${of}${reason ? `: ${reason}` : ""}`;
}
