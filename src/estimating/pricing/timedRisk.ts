/** Timed lines as risks: bench time in money, and all of it in time. */
import { known } from "../book.js";
import type { Minor, RateBook } from "../input.js";
import { inMinutes, type LabourLine, NO_TIME, plus, type Times } from "../labour/times.js";
import { type LabourRisk, pricedMinutes, type RiskModel, type SourcingRisk, worth } from "../risk/model.js";
import type { KindPlan } from "./buyPlans.js";
import type { Priced, Workings } from "./workings.js";

/** A line is in many prices, and the same in each. */
const risks = new WeakMap<LabourLine, LabourRisk>();

/** `underCondition`: at the bench; the rest runs beside it. */
export function timedRisk(each: LabourLine, { book }: Workings): LabourRisk {
  const { line, times, attended, labourClass } = each;
  const ready = risks.get(each) ?? {
    id: line.id,
    time: inMinutes(times),
    ratePerHour: known(book.classes, labourClass).is.ratePerHour,
    underCondition: attended,
  };
  risks.set(each, ready);
  return ready;
}

export const sourcingRisk = ({ bought, plan }: KindPlan): SourcingRisk => ({
  id: bought.kind.id,
  priced: bought.cost,
  outcomes: plan.outcomes,
});

export const chargedBy = ({ billing }: RateBook): Pick<RiskModel, "charged"> =>
  billing.minutes === "expected" ? { charged: "expected" } : {};

/** What is charged for its time. */
export const worthOf = (labour: readonly LabourRisk[], rateBook: RateBook): number =>
  labour.reduce((sum, { time, ratePerHour }) => sum + worth(pricedMinutes(time, chargedBy(rateBook)), ratePerHour), 0);

export const pricedOf = (sourcing: readonly SourcingRisk[]): Minor => sourcing.reduce((sum, { priced }) => sum + priced, 0);

/** Access and work; pulling from donor units is part of what a part costs. */
export const workLines = ({ access, labour }: Priced): LabourLine[] =>
  [...access, ...labour].filter(({ line }) => line.sort !== "donor pull");

/** Times of work lines by id. */
export const timesById = (priced: Priced): ReadonlyMap<string, Times> =>
  new Map(workLines(priced).map(({ line, times }) => [line.id, times]));

/** What `more` takes beyond the times `before`, line by line. Where a set-up moved to another line, the lines of one class are one: together they only grow. */
export function addedLines(before: ReadonlyMap<string, Times>, more: Priced): LabourLine[] {
  const added: LabourLine[] = [];
  for (const each of workLines(more)) {
    const was = before.get(each.line.id) ?? NO_TIME;
    if (was === each.times) continue;
    const times = less(each.times, was);
    if (times.low !== 0 || times.likely !== 0 || times.high !== 0) added.push({ ...each, times });
  }
  if (added.every(({ times }) => times.low >= 0 && times.likely >= times.low && times.high >= times.likely)) return added;
  const byClass = new Map<string, LabourLine>();
  for (const each of added) {
    const sum = byClass.get(each.labourClass);
    byClass.set(each.labourClass, sum ? { ...sum, times: plus(sum.times, each.times) } : each);
  }
  return [...byClass.values()];
}

const less = (a: Times, b: Times): Times => ({ low: a.low - b.low, likely: a.likely - b.likely, high: a.high - b.high });
