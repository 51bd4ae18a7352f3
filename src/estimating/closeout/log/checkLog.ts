/** Everything that can be wrong with a work log. A log without problems can be closed out. */
import { type Book, readBook } from "../../book.js";
import { amount, count, repeated, unknown } from "../../check/figures.js";
import { inside, type Spot, spot } from "../../check/spot.js";
import type { EstimateInput, IsoDate } from "../../input.js";
import type { LogProblem, Problem } from "../../problems.js";
import { at, checkWork, type Placed, type Wording, wordingFor } from "./checkEntry.js";
import { checkTime, stillRunning } from "./checkTime.js";
import { type Covered, coverage } from "./covered.js";
import { type PartUsed, type TimeEntry, type Work, type WorkLog, withNames } from "./workLog.js";

export interface LogContext {
  /** The revision worked by now. */
  readonly current: EstimateInput;
  /** The revision agreed to, with the options chosen (`withChoices`); undefined while there is no agreement. */
  readonly agreed: EstimateInput | undefined;
  /** Day the job was closed; undefined while it is open. */
  readonly closedOn?: IsoDate;
}

/** All that either revision has: work that a later draft dropped may have been done. */
const namesIn = ({ current, agreed }: LogContext): EstimateInput => (agreed ? withNames(agreed, current) : current);

/** Pointers are into the log: /time/3/endedAt, /parts/0/count. */
export function checkLog(log: WorkLog, context: LogContext): (Problem | LogProblem)[] {
  const covered = coverage(context.current, context.agreed);
  const names = namesIn(context);
  const wording = wordingFor(names);
  const book = readBook(names);
  const { time, parts } = placed(log, wording);
  return [
    ...time.flatMap(({ entry, here }) => checkWork(entry, here, inside(here, ["work"]), names, covered)),
    ...checkTime(time, names),
    ...parts.flatMap((each) => checkPart(each, names, book, covered, wording)),
    ...repeated(
      log.time,
      ({ id }) => id,
      "time entry",
      (index) => inside(time[index]!.here, ["id"]),
    ),
    ...repeated(
      log.parts,
      ({ id }) => id,
      "part used",
      (index) => inside(parts[index]!.here, ["id"]),
    ),
  ];
}

/** The same for closing: no timer may run. */
export const checkForClosing = (log: WorkLog, context: LogContext): (Problem | LogProblem)[] => [
  ...checkLog(log, context),
  ...stillRunning(placed(log, wordingFor(namesIn(context))).time),
];

/** What keeps one more entry from being logged. What was wrong before is not the new entry's fault and is left out. */
export function checkAddition(
  log: WorkLog,
  addition: { readonly time: TimeEntry } | { readonly part: PartUsed },
  context: LogContext,
): (Problem | LogProblem)[] {
  const grown: WorkLog =
    "time" in addition ? { ...log, time: [...log.time, addition.time] } : { ...log, parts: [...log.parts, addition.part] };
  const pointer = "time" in addition ? `/time/${log.time.length}` : `/parts/${log.parts.length}`;
  const known = new Set(checkLog(log, context).map((problem) => JSON.stringify(problem)));
  const problems = checkLog(grown, context).filter((problem) => !known.has(JSON.stringify(problem)));
  if (context.closedOn === undefined) return problems;
  const { time, parts } = placed(grown, wordingFor(namesIn(context)));
  const here = ("time" in addition ? time.at(-1)! : parts.at(-1)!).here;
  return [{ ...at(here, { name: "job closed", on: context.closedOn }), pointer }, ...problems];
}

/** The log without the entries that problems point to. */
export function withoutRefused(log: WorkLog, problems: readonly { readonly pointer: string }[]): WorkLog {
  const refused = new Set(problems.map(({ pointer }) => pointer.split("/").slice(0, 3).join("/")));
  return {
    time: log.time.filter((_, index) => !refused.has(`/time/${index}`)),
    parts: log.parts.filter((_, index) => !refused.has(`/parts/${index}`)),
  };
}

function placed(log: WorkLog, wording: Wording): { time: Placed<TimeEntry>[]; parts: Placed<PartUsed>[] } {
  const place = <Entry>(entry: Entry, who: string, work: Work, ...tokens: (string | number)[]): Placed<Entry> => {
    const on = () => wording.work(work);
    return { entry, on, here: spot(() => `${who}, ${on()}`, ...tokens) };
  };
  return {
    time: log.time.map((entry, index) => place(entry, entry.person.trim() || "Somebody", entry.work, "time", index)),
    parts: log.parts.map((entry, index) => place(entry, "Part used", { is: "item", id: entry.item }, "parts", index)),
  };
}

function checkPart(
  { entry, here }: Placed<PartUsed>,
  names: EstimateInput,
  book: Book,
  covered: Covered,
  wording: Wording,
): readonly (Problem | LogProblem)[] {
  const { part, paid, override } = entry;
  const to = (...tokens: string[]): Spot => inside(here, tokens);
  const work = checkWork({ work: { is: "item", id: entry.item }, override }, here, to("item"), names, covered);
  const notFitting = work.length === 0 && !covered.counts(entry) && !override;
  return [
    ...work,
    ...("kind" in part
      ? unknown("part kind unknown", part.kind, book.kinds, to("part", "kind"))
      : "type" in part
        ? unknown("part type unknown", part.type, book.partTypes, to("part", "type"))
        : []),
    ...(notFitting ? [at(to("part"), { name: "part not agreed", part: wording.part(part) })] : []),
    ...count(entry.count, to("count")),
    ...amount(paid.price, to("paid", "price")),
    ...count(paid.per, to("paid", "per"), undefined, 1),
  ];
}
