/** What a job earned: what is billed without tax, less what its hours, its parts and everything else cost the shop. */
import { readBook } from "../../book.js";
import type { Minor, Percent } from "../../input.js";
import { divide, timesOver } from "../../money/rounding.js";
import { PERCENT_SCALE, priceMilli, toMilli, WHOLE } from "../../money/scales.js";
import { pertMean } from "../../risk/line.js";
import type { Sheet } from "../../sheet.js";
import { agreedOf, type JobDone } from "../jobDone.js";
import { spent } from "../log/spent.js";
import { type WorkLog, withNames } from "../log/workLog.js";
import type { FinalAccount } from "./finalAccount.js";

export interface Costs {
  /** What an hour of each person costs the shop, wages and what goes with them; minor units. */
  readonly perHour: Readonly<Record<string, Minor>>;
  /** For persons not named, and for hours planned. */
  readonly otherwise: Minor;
  /** Paid to get what the job needed; absent on close-outs made before it was asked for. */
  readonly freight?: Minor;
  /** Outside work and anything else paid for this job. */
  readonly other: readonly { readonly what: string; readonly amount: Minor }[];
}

export interface Margin {
  /** Without tax. */
  readonly revenue: Minor;
  readonly labour: Minor;
  readonly parts: Minor;
  readonly other: Minor;
  /** revenue - labour - parts - other. */
  readonly margin: Minor;
  /** Of the revenue, to four decimals; absent without revenue. */
  readonly percent?: Percent;
  /** Margin for each attended hour; absent without hours. */
  readonly perHour?: Minor;
}

/** Earned, with all that was worked and used, agreed or not. The log must be without problems. */
export function marginOf(job: JobDone, account: Pick<FinalAccount, "totals">, costs: Costs, worked: WorkLog = job.log): Margin {
  const names = withNames(agreedOf(job).input, job.current);
  const book = readBook(names);
  const byPerson = new Map<string, number>();
  for (const entry of worked.time) {
    const { milli, labourClass } = spent(entry, names, book);
    if (labourClass.attended) byPerson.set(entry.person, milli + (byPerson.get(entry.person) ?? 0));
  }
  const milli = [...byPerson.values()].reduce((sum, each) => sum + each, 0);
  return marginFrom(milli, {
    revenue: account.totals.withoutTax,
    labour: [...byPerson].reduce((sum, [person, each]) => sum + priceMilli(each, costs.perHour[person] ?? costs.otherwise), 0),
    parts: worked.parts.reduce((sum, { count, paid }) => sum + timesOver(count, paid.price, paid.per), 0),
    other: costs.other.reduce((sum, { amount }) => sum + amount, costs.freight ?? 0),
  });
}

/** As a sheet was reckoned: the minutes that are charged, expected or likely; parts and freight as offered. */
export function plannedMargin(
  { totals, lines, time, parts, adjustments }: Sheet,
  { otherwise }: Pick<Costs, "otherwise">,
): Margin {
  const milli = toMilli(lines.some(({ times }) => times) ? pertMean(time.spread) : time.attended);
  return marginFrom(milli, {
    revenue: totals.withoutTax,
    labour: priceMilli(milli, otherwise),
    parts: parts.reduce((sum, { cost }) => sum + cost, 0),
    other: freightOf({ adjustments }),
  });
}

/** As it was estimated. */
export const freightOf = ({ adjustments }: Pick<Sheet, "adjustments">): Minor =>
  adjustments.reduce((sum, { sort, amount }) => sum + (sort === "freight" ? amount : 0), 0);

function marginFrom(milli: number, amounts: Omit<Margin, "margin" | "percent" | "perHour">): Margin {
  const { revenue, labour, parts, other } = amounts;
  const margin = revenue - labour - parts - other;
  return {
    ...amounts,
    margin,
    ...(revenue > 0 && { percent: divide(BigInt(margin) * BigInt(WHOLE), BigInt(revenue)) / PERCENT_SCALE }),
    ...(milli > 0 && { perHour: timesOver(margin, 60_000, milli) }),
  };
}
