import type { Margin } from "../estimating/closeout/account/margin.js";
import type { CloseOut } from "../estimating/closeout/variance/closeOut.js";
import { duration } from "./duration.js";
import { listed } from "./list.js";
import { money } from "./money.js";
import type { Tongue } from "./tongue.js";

/** 'The job earned £148.20 less than planned: 2 h 10 min more at the bench than allowed.' Without costs, what is known instead. */
export function earnedText(
  closeOut: CloseOut,
  earned: { readonly margin?: Margin | undefined; readonly planned?: Margin | undefined },
  tongue: Tongue,
): string {
  const why = reasons(closeOut, tongue);
  const because = why.length === 0 ? "." : `: ${listed(why)}.`;
  if (earned.margin && earned.planned) {
    const by = earned.margin.margin - earned.planned.margin;
    const made = money(earned.margin.margin, tongue);
    if (by === 0) return `The job earned ${made}, as planned${because}`;
    return `The job earned ${made}, ${money(Math.abs(by), tongue)} ${by < 0 ? "less" : "more"} than planned${because}`;
  }
  const { actual, allowed } = closeOut.total;
  const size = money(Math.abs(actual - allowed), tongue);
  const came = actual === allowed ? "what was allowed for" : `${size} ${actual > allowed ? "more" : "less"} than allowed for`;
  return `What an hour costs the shop was not said, so what the job earned is not known. At the shop's own prices, work and parts came to ${came}${because}`;
}

/** What moved it, in the order a person looks for it. */
function reasons({ attended, total, scope }: CloseOut, tongue: Tongue): string[] {
  const minutes = attended.actual - attended.allowed;
  const parts = total.variance.price + total.variance.usage;
  const changed = scope.reduce((sum, { amount }) => sum + amount, 0);
  const { "not agreed": beyond } = total.variance;
  const more = (amount: number) => (amount > 0 ? "more" : "less");
  const cash = (amount: number) => money(Math.abs(amount), tongue);
  return [
    ...(Math.abs(minutes) < 0.05
      ? []
      : [`${duration(Math.abs(minutes), tongue.locale)} ${more(minutes)} at the bench than allowed`]),
    ...(parts === 0 ? [] : [`${cash(parts)} ${more(parts)} for parts`]),
    ...(changed === 0 ? [] : [`${cash(changed)} ${more(changed)} work than first quoted`]),
    ...(beyond === 0 ? [] : [`${cash(beyond)} of work and parts that were not agreed`]),
  ];
}
