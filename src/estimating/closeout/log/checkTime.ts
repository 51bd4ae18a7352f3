/** Time: readable, not negative, named, and one person in one place at a time. Unattended time may run beside anything. */
import { readBook } from "../../book.js";
import { minutes as minutesInRange, unknown } from "../../check/figures.js";
import { inside, type Spot } from "../../check/spot.js";
import type { EstimateInput } from "../../input.js";
import { fromMilli, MILLI } from "../../money/scales.js";
import type { LogProblem, Problem } from "../../problems.js";
import { at, type Placed } from "./checkEntry.js";
import { classWorked, milliOf, readMoment } from "./spent.js";
import type { TimeEntry } from "./workLog.js";

/** Nobody works longer on end; a timer that says so was left running. */
const LONGEST = 24 * 60 * MILLI;

export function checkTime(placed: readonly Placed<TimeEntry>[], input: EstimateInput): (Problem | LogProblem)[] {
  const book = readBook(input);
  const attended = ({ entry }: Placed<TimeEntry>) => classWorked(entry, input, book)?.attended ?? true;
  return [
    ...placed.flatMap((each) => [
      ...(each.entry.person.trim() === "" ? [at(each.here, { name: "person missing" }, "person")] : []),
      ...(each.entry.labourClass === undefined
        ? []
        : unknown("labour class unknown", each.entry.labourClass, book.classes, inside(each.here, ["labourClass"]))),
      ...checkSpan(each.entry, each.here, attended(each)),
    ]),
    ...checkOverlaps(placed.filter(attended)),
  ];
}

function checkSpan(entry: TimeEntry, here: Spot, attended: boolean): readonly (Problem | LogProblem)[] {
  if ("minutes" in entry) {
    if (entry.minutes < 0) return [at(here, { name: "time negative", minutes: entry.minutes }, "minutes")];
    return minutesInRange(entry.minutes, inside(here, ["minutes"]));
  }
  const { startedAt, endedAt } = entry;
  const [from, to] = [readMoment(startedAt), endedAt === undefined ? undefined : readMoment(endedAt)];
  const unreadable = [
    ...(from === undefined ? [at(here, { name: "moment unreadable", value: startedAt }, "startedAt")] : []),
    ...(endedAt !== undefined && to === undefined ? [at(here, { name: "moment unreadable", value: endedAt }, "endedAt")] : []),
  ];
  if (from === undefined || to === undefined) return unreadable;
  const milli = milliOf(to - from);
  if (milli < 0) return [at(here, { name: "time negative", minutes: fromMilli(milli) }, "endedAt")];
  const tooLong = attended && milli > LONGEST;
  return tooLong ? [at(here, { name: "time too long", minutes: fromMilli(milli), limit: fromMilli(LONGEST) }, "endedAt")] : [];
}

interface Stretch extends Placed<TimeEntry> {
  readonly from: number;
  /** Infinity while the timer runs. */
  readonly to: number;
}

/** The later of two that overlap is named. A stretch that touches the next does not overlap it. */
function checkOverlaps(placed: readonly Placed<TimeEntry>[]): LogProblem[] {
  const byPerson = new Map<string, Stretch[]>();
  for (const each of placed) {
    const { entry } = each;
    if ("minutes" in entry) continue;
    const from = readMoment(entry.startedAt);
    const to = entry.endedAt === undefined ? Number.POSITIVE_INFINITY : readMoment(entry.endedAt);
    if (from === undefined || to === undefined || to < from) continue;
    const stretch = { ...each, from, to };
    const before = byPerson.get(entry.person);
    if (before) before.push(stretch);
    else byPerson.set(entry.person, [stretch]);
  }
  return [...byPerson.values()].flatMap((stretches) => {
    stretches.sort((a, b) => a.from - b.from || a.to - b.to);
    let last: Stretch | undefined;
    return stretches.flatMap((stretch): LogProblem[] => {
      const before = last;
      if (!before || stretch.to > before.to) last = stretch;
      if (!before || stretch.from >= before.to || stretch.to === stretch.from) return [];
      const other = before.on();
      if (stretch.to === before.to && stretch.to === Number.POSITIVE_INFINITY)
        return [at(stretch.here, { name: "two timers", other }, "startedAt")];
      const minutes = fromMilli(milliOf(Math.min(stretch.to, before.to) - stretch.from));
      return [at(stretch.here, { name: "times overlap", other, minutes }, "startedAt")];
    });
  });
}

/** What keeps a job from being closed. */
export const stillRunning = (placed: readonly Placed<TimeEntry>[]): LogProblem[] =>
  placed.flatMap(({ entry, here }) =>
    "minutes" in entry || entry.endedAt !== undefined
      ? []
      : [at(here, { name: "timer running", since: entry.startedAt }, "endedAt")],
  );
