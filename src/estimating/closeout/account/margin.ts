/** What a job earned: what is billed without tax, less what its hours, its parts and everything else cost the shop. */
import { readBook } from "../../book.js";
import type { Minor, Percent } from "../../input.js";
import { divide, timesOver } from "../../money/rounding.js";
import { PERCENT_SCALE, priceMilli, toMilli, WHOLE } from "../../money/scales.js";
import { behindOf } from "../../resolve.js";
import { pertMean } from "../../risk/line.js";
import type { Line, Sheet } from "../../sheet.js";
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
  /** Margin for each attended hour; absent without hours, or where they are not known. */
  readonly perHour?: Minor;
  /** Work is billed whose time nobody knows, such as at a fixed price. Never set on close-outs from before 2026-11-30. */
  readonly untimed?: true;
}

/** Earned, with all that was worked and used, agreed or not. The log must be without problems. */
export function marginOf(
  job: JobDone,
  account: Pick<FinalAccount, "lines" | "totals">,
  costs: Costs,
  worked: WorkLog = job.log,
): Margin {
  const names = withNames(agreedOf(job).input, job.current);
  const book = readBook(names);
  const byPerson = new Map<string, number>();
  for (const entry of worked.time) {
    const { milli, labourClass } = spent(entry, names, book);
    if (labourClass.attended) byPerson.set(entry.person, milli + (byPerson.get(entry.person) ?? 0));
  }
  const milli = [...byPerson.values()].reduce((sum, each) => sum + each, 0);
  const known = job.hoursKnown !== true || isTimed(account.lines, names, worked);
  return marginFrom(known ? milli : undefined, {
    revenue: account.totals.withoutTax,
    labour: [...byPerson].reduce((sum, [person, each]) => sum + priceMilli(each, costs.perHour[person] ?? costs.otherwise), 0),
    parts: worked.parts.reduce((sum, { count, paid }) => sum + timesOver(count, paid.price, paid.per), 0),
    other: costs.other.reduce((sum, { amount }) => sum + amount, costs.freight ?? 0),
  });
}

/** Whether all work billed has time in the log, or stands behind a service that has; `worked` has what was planned of the untimed. */
function isTimed(lines: readonly Line[], { items }: Pick<JobDone["revisions"][0]["input"], "items">, { time }: WorkLog): boolean {
  const timed = new Set(time.flatMap(({ work }) => (work.is === "item" ? [work.id] : [])));
  const through = new Set(items.flatMap((item) => (timed.has(item.id) ? (behindOf(item) ?? []) : [])));
  return lines.every(
    ({ amount, labourClass, from }) =>
      amount === 0 || !labourClass || from.every((by) => by.is !== "item" || timed.has(by.id) || through.has(by.id)),
  );
}

/** As a sheet was reckoned: the minutes that are charged, expected or likely; parts and freight as offered. */
export function plannedMargin(
  { totals, lines, behind = [], time, parts, adjustments }: Sheet,
  { otherwise }: Pick<Costs, "otherwise">,
  hoursKnown = false,
): Margin {
  const milli = toMilli(lines.some(({ times }) => times) ? pertMean(time.spread) : time.attended);
  const open = ({ amount, minutes, why }: Line): boolean =>
    why?.rule === "fixed price" && amount !== 0 && !minutes && !(why.service && behind.some((line) => line.minutes));
  return marginFrom(hoursKnown && lines.some(open) ? undefined : milli, {
    revenue: totals.withoutTax,
    labour: priceMilli(milli, otherwise),
    parts: parts.reduce((sum, { cost }) => sum + cost, 0),
    other: freightOf({ adjustments }),
  });
}

/** As it was estimated. */
export const freightOf = ({ adjustments }: Pick<Sheet, "adjustments">): Minor =>
  adjustments.reduce((sum, { sort, amount }) => sum + (sort === "freight" ? amount : 0), 0);

/** `milli`: undefined where it is not known. */
function marginFrom(milli: number | undefined, amounts: Omit<Margin, "margin" | "percent" | "perHour" | "untimed">): Margin {
  const { revenue, labour, parts, other } = amounts;
  const margin = revenue - labour - parts - other;
  return {
    ...amounts,
    margin,
    ...(revenue > 0 && { percent: divide(BigInt(margin) * BigInt(WHOLE), BigInt(revenue)) / PERCENT_SCALE }),
    ...(milli === undefined && { untimed: true as const }),
    ...(milli && { perHour: timesOver(margin, 60_000, milli) }),
  };
}
