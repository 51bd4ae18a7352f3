/** Past jobs priced by another rate book: what would have changed. The past inputs and their sheets stay as they are. */
import { estimate } from "../../estimate.js";
import type { EstimateInput, Minor, RateBook } from "../../input.js";
import type { Problem } from "../../problems.js";
import type { Totals } from "../../sheet.js";

export interface PastJob {
  readonly job: string;
  /** As it was allowed, so that the actual is for the same work. */
  readonly input: EstimateInput;
  /** Close-out's actual, before tax that comes on top. */
  readonly actual?: Minor;
}

export interface Repriced {
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
    const [before, after] = [estimate(input), estimate({ ...input, rateBook: proposed })];
    if (!before.ok || !after.ok) leftOut.push({ job, problems: before.ok ? (after.ok ? [] : after.problems) : before.problems });
    else
      jobs.push({
        job,
        before: pricesOf(before.sheet.totals),
        after: pricesOf(after.sheet.totals),
        ...(actual !== undefined && { actual }),
      });
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

const pricesOf = ({ linesNet, allowances, charges, total }: Totals) => ({ price: linesNet - allowances + charges, total });
