/** Past jobs priced by another rate book: what would have changed. The past inputs and their sheets stay as they are. */
import { check } from "../../check/check.js";
import type { EstimateInput, Minor, RateBook } from "../../input.js";
import { pricedInput } from "../../pricing/total.js";
import type { Problem } from "../../problems.js";

export interface PastJob {
  readonly job: string;
  /** As it was allowed, so that the actual is for the same work. */
  readonly input: EstimateInput;
  /** Close-out's actual, before tax that comes on top. */
  readonly actual?: Minor;
}

interface Repriced {
  readonly job: string;
  /** Before tax that comes on top, as the rate book's prices are; and with tax. */
  readonly before: { readonly price: Minor; readonly total: Minor };
  readonly after: { readonly price: Minor; readonly total: Minor };
  readonly actual?: Minor;
}

export interface WhatIf {
  readonly jobs: readonly Repriced[];
  /** Jobs that one of the two books cannot price, with why. */
  readonly leftOut: readonly { readonly job: string; readonly problems: readonly Problem[] }[];
  /** Sums over all jobs repriced. */
  readonly before: { readonly price: Minor; readonly total: Minor };
  readonly after: { readonly price: Minor; readonly total: Minor };
  /** Over the jobs with an actual: sums, and what the prices were off by, each way taken as positive. */
  readonly against?: {
    readonly jobs: number;
    readonly actual: Minor;
    readonly before: Minor;
    readonly after: Minor;
    readonly offBefore: Minor;
    readonly offAfter: Minor;
  };
}

export function whatIf(past: readonly PastJob[], proposed: RateBook): WhatIf {
  const jobs: Repriced[] = [];
  const leftOut: { job: string; problems: readonly Problem[] }[] = [];
  for (const { job, input, actual } of past) {
    const [before, after] = [priced(input), priced({ ...input, rateBook: proposed })];
    if (before.ok && after.ok)
      jobs.push({ job, before: before.prices, after: after.prices, ...(actual !== undefined && { actual }) });
    else leftOut.push({ job, problems: [before, after].flatMap((each) => (each.ok ? [] : each.problems)) });
  }
  const sum = (of: (job: Repriced) => Minor, list: readonly Repriced[] = jobs) => list.reduce((total, job) => total + of(job), 0);
  const both = (of: (job: Repriced) => Repriced["before"]) => ({
    price: sum((job) => of(job).price),
    total: sum((job) => of(job).total),
  });
  const known = jobs.filter(({ actual }) => actual !== undefined);
  return {
    jobs,
    leftOut,
    before: both(({ before }) => before),
    after: both(({ after }) => after),
    ...(known.length > 0 && {
      against: {
        jobs: known.length,
        actual: sum(({ actual }) => actual!, known),
        before: sum(({ before }) => before.price, known),
        after: sum(({ after }) => after.price, known),
        offBefore: sum(({ before, actual }) => Math.abs(before.price - actual!), known),
        offAfter: sum(({ after, actual }) => Math.abs(after.price - actual!), known),
      },
    }),
  };
}

type Prices = Repriced["before"];

function priced(input: EstimateInput): { ok: true; prices: Prices } | { ok: false; problems: readonly Problem[] } {
  const problems = check(input);
  if (problems.length > 0) return { ok: false, problems };
  const { linesNet, allowances, charges, total } = pricedInput(input).priced.totals;
  return { ok: true, prices: { price: linesNet - allowances + charges, total } };
}
