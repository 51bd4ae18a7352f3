/** The shop's board: how accurate estimates are, over all and by model, and what jobs earned by month and by model. */
import type { IsoDate, Minor, Percent } from "../../input.js";
import { divide } from "../../money/rounding.js";
import { PERCENT_SCALE, WHOLE } from "../../money/scales.js";
import { type Accuracy, accuracyOf, type Forecast } from "./accuracy.js";

export interface JobOutcome {
  readonly job: string;
  /** Maker and model. */
  readonly model: string;
  readonly closedOn: IsoDate;
  /** Absent where nothing was agreed to, so that there was nothing to forecast. */
  readonly forecast?: Forecast;
  /** Billed without tax, and what it cost the shop; minor units. Absent where costs are not known. */
  readonly earned?: { readonly revenue: Minor; readonly cost: Minor };
}

export interface Earned {
  readonly jobs: number;
  readonly revenue: Minor;
  readonly cost: Minor;
  /** revenue - cost. */
  readonly margin: Minor;
  readonly percent?: Percent;
}

export interface AccuracyBoard {
  readonly overall?: Accuracy;
  /** Most jobs first. */
  readonly byModel: readonly { readonly model: string; readonly accuracy?: Accuracy; readonly earned: Earned }[];
  /** YYYY-MM, ascending; months without jobs are left out. */
  readonly byMonth: readonly { readonly month: string; readonly earned: Earned }[];
  readonly earned: Earned;
}

export function accuracyBoard(outcomes: readonly JobOutcome[]): AccuracyBoard {
  const overall = accuracyAmong(outcomes);
  return {
    ...(overall && { overall }),
    byModel: [...groupedBy(outcomes, ({ model }) => model)]
      .map(([model, own]) => {
        const accuracy = accuracyAmong(own);
        return { model, ...(accuracy && { accuracy }), earned: earnedBy(own) };
      })
      .sort((a, b) => (b.accuracy?.jobs ?? 0) - (a.accuracy?.jobs ?? 0) || (a.model < b.model ? -1 : 1)),
    byMonth: [...groupedBy(outcomes, ({ closedOn }) => closedOn.slice(0, 7))]
      .map(([month, own]) => ({ month, earned: earnedBy(own) }))
      .sort((a, b) => (a.month < b.month ? -1 : 1)),
    earned: earnedBy(outcomes),
  };
}

const accuracyAmong = (outcomes: readonly JobOutcome[]): Accuracy | undefined =>
  accuracyOf(outcomes.flatMap(({ forecast }) => forecast ?? []));

/** Only jobs whose costs are known. */
function earnedBy(outcomes: readonly JobOutcome[]): Earned {
  let [jobs, revenue, cost] = [0, 0, 0];
  for (const { earned } of outcomes)
    if (earned) {
      jobs += 1;
      revenue += earned.revenue;
      cost += earned.cost;
    }
  const margin = revenue - cost;
  const percent = revenue > 0 ? divide(BigInt(margin) * BigInt(WHOLE), BigInt(revenue)) / PERCENT_SCALE : undefined;
  return { jobs, revenue, cost, margin, ...(percent !== undefined && { percent }) };
}

function groupedBy<T>(list: readonly T[], key: (entry: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const entry of list) {
    const group = groups.get(key(entry));
    if (group) group.push(entry);
    else groups.set(key(entry), [entry]);
  }
  return groups;
}
