/** How good the estimates were, in plain sentences. Amounts are minor units, not rounded. */
import type { Accuracy } from "../estimating/closeout/accuracy/accuracy.js";
import type { Earned } from "../estimating/closeout/accuracy/board.js";
import { coverageText } from "./closeoutProposal.js";
import { counted } from "./list.js";
import { money } from "./money.js";
import { percent } from "./percent.js";
import type { Tongue } from "./tongue.js";

export function biasText({ bias, jobs }: Accuracy, tongue: Tongue): string {
  const amount = Math.round(bias);
  const over = `Over ${counted(jobs, "job")}`;
  if (amount === 0) return `${over}, work came to what the middle estimate said on average.`;
  return `${over}, work came to ${money(Math.abs(amount), tongue)} ${amount > 0 ? "more" : "less"} than the middle estimate on average.`;
}

/** Of fewer jobs a middle says nothing. */
const ENOUGH = 5;

export function accuracyTexts(accuracy: Accuracy, tongue: Tongue): string[] {
  const { jobs, medianAbsolutePercent, coverage80 } = accuracy;
  return [
    biasText(accuracy, tongue),
    ...(medianAbsolutePercent === undefined || jobs < ENOUGH
      ? []
      : [`For half of them it was within ${percent(tenth(medianAbsolutePercent), tongue.locale)} of what they came to.`]),
    ...(coverage80 ? [coverageText(coverage80, tongue.locale)] : []),
  ];
}

/** Undefined where no job's costs are known. */
export function marginText({ jobs, revenue, margin, percent: share }: Earned, tongue: Tongue): string | undefined {
  if (jobs === 0) return undefined;
  const of = share === undefined ? "" : ` (${percent(tenth(share), tongue.locale)})`;
  const known = jobs === 1 ? "the one job whose costs are known" : `the ${jobs} jobs whose costs are known`;
  return margin >= 0
    ? `${money(margin, tongue)} was left of ${money(revenue, tongue)} billed before tax${of}, over ${known}.`
    : `${money(-margin, tongue)} was lost on ${money(revenue, tongue)} billed before tax${of}, over ${known}.`;
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
