/**
 * When the job will be ready: the bench queue, then the longest lead time that comes to pass, then the work. Lead times and work are taken together: a fault that
 * is found brings its hours and its part's lead time at once. For each lead time d: P(longest lead <= d, work <= w) = P(nothing slower turns up) x P(work <= w | that).
 */
import type { Minutes } from "../input.js";
import type { Resolution } from "./convolution.js";
import { type Distribution, distributionOf } from "./distribution.js";
import type { FoundRisk, LabourRisk, RiskModel } from "./model.js";

export interface CompletionModel {
  readonly queueDays: number;
  /** Longest lead time of what is bought for the planned work. */
  readonly leadDays: number;
  /** Reorders that may turn out to be needed; `days`: from now until the reordered part is there. */
  readonly reorders: readonly { readonly probability: number; readonly days: number }[];
  /** Lead time of each found group's parts, by its id; absent: 0. */
  readonly foundLeadDays: Readonly<Record<string, number>>;
  /** Labour under condition occupies the bench; the rest runs day and night beside it. Its money is not looked at. */
  readonly work: Pick<RiskModel, "conditionCv" | "labour" | "ifFound" | "shared">;
  readonly weeklyBenchMinutes: Minutes;
}

interface Completion {
  /** Days from now, whole, within which half of such jobs are ready, and four in five. */
  readonly p50: number;
  readonly p80: number;
}

const COARSE: Resolution = { cells: 256, strata: 10 };
const DAY = 24 * 60;
/** More different lead times than this are rounded up to the next that is kept. */
const MOST_LEADS = 8;

export function completion(model: CompletionModel): Completion {
  const ready = readyBy(model);
  return { p50: fewestDays(ready, 0.5), p80: fewestDays(ready, 0.8) };
}

/** P(ready within so many days from now). */
function readyBy({
  queueDays,
  leadDays,
  reorders,
  foundLeadDays,
  work,
  weeklyBenchMinutes,
}: CompletionModel): (days: number) => number {
  const leadOf = (found: FoundRisk) => (found.probability > 0 ? (foundLeadDays[found.id] ?? 0) : 0);
  const leads = kept(
    [leadDays, ...reorders.map(({ days }) => days), ...work.ifFound.map(leadOf)].filter((days) => days >= leadDays),
  );
  const calendar = inCalendarMinutes(work, weeklyBenchMinutes);
  /** By how many groups are in it: of ascending leads, each has those of the one before. */
  const totals = new Map<number, Distribution>();
  const steps = leads.map((lead) => {
    const slow = calendar.ifFound.filter((found) => leadOf(found) > lead);
    const ifFound = calendar.ifFound.filter((found) => leadOf(found) <= lead);
    const noSlower =
      slow.reduce((chance, { probability }) => chance * (1 - probability), 1) *
      reorders.reduce((chance, { days, probability }) => (days > lead ? chance * (1 - probability) : chance), 1);
    const total = totals.get(ifFound.length) ?? distributionOf({ ...calendar, ifFound }, COARSE);
    totals.set(ifFound.length, total);
    return { lead, within: (minutes: number) => noSlower * total.atMost(minutes) };
  });
  return (days) => {
    let sum = 0;
    steps.forEach(({ lead, within }, index) => {
      const minutes = (days - queueDays - lead) * DAY;
      if (minutes >= 0) sum += within(minutes) - (index > 0 ? steps[index - 1]!.within(minutes) : 0);
    });
    return Math.min(1, Math.max(0, sum));
  };
}

/** One bench minute takes 7 days / weekly bench minutes of the calendar; a minute beside the bench takes a minute. */
function inCalendarMinutes(work: CompletionModel["work"], weeklyBenchMinutes: Minutes): RiskModel {
  const timed = (line: LabourRisk): LabourRisk => ({
    ...line,
    ratePerHour: line.underCondition ? (60 * 7 * DAY) / weeklyBenchMinutes : 60,
  });
  return {
    conditionCv: work.conditionCv,
    fixed: 0,
    sourcing: [],
    labour: work.labour.map(timed),
    ifFound: work.ifFound.map(({ id, probability, labour, needs }) => ({
      id,
      probability,
      parts: 0,
      labour: labour.map(timed),
      ...(needs && { needs }),
    })),
    ...(work.shared && { shared: work.shared.map(({ id, labour }) => ({ id, amount: 0, labour: labour.map(timed) })) }),
  };
}

/** Ascending, at most MOST_LEADS of them, the longest always among them. */
function kept(leads: readonly number[]): readonly number[] {
  const all = [...new Set(leads)].sort((a, b) => a - b);
  const every = Math.ceil(all.length / MOST_LEADS);
  return all.filter((_, index) => (all.length - 1 - index) % every === 0);
}

function fewestDays(ready: (days: number) => number, p: number): number {
  let high = 1;
  while (ready(high) < p && high < 1e6) high *= 2;
  let low = -1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (ready(middle) >= p) high = middle;
    else low = middle;
  }
  return high;
}
