/**
 * What was done under an agreement that the owner took back, as it was agreed: what is ticked off at its agreed price, and by its time
 * what is logged beyond that, never dearer than all of it was agreed at; its parts at theirs, ticked off or logged. By time and parts by
 * what is logged, and as planned where only ticked off.
 */
import { isLooking } from "../../agreement/workLog.js";
import type { WorkItem } from "../../input.js";
import { isCharged } from "../../labour/groups.js";
import { timesOver } from "../../money/rounding.js";
import { toMilli } from "../../money/scales.js";
import { behindOf, partOf } from "../../resolve.js";
import type { Adjustment, Line } from "../../sheet.js";
import { labourLines } from "../actual/actualLines.js";
import { type Recorded, recorded } from "../actual/partsDone.js";
import { allowedFor, type ChargedRevision, type JobDone, type ThenAgreed } from "../jobDone.js";
import type { WorkLog } from "../log/workLog.js";
import { type PartTold, partsFitted, partsTold } from "./fitted.js";
import { usualBasis } from "./terms.js";

interface DoneThen {
  readonly lines: readonly Line[];
  readonly freight: readonly Adjustment[];
  /** As it was agreed. */
  readonly whole: ChargedRevision;
  /** Of all the log, charged by it or not. */
  readonly worked: Recorded;
  readonly fitted: readonly PartTold[];
}

type Counts = Record<string, number>;

/** `log`: of that work alone. Undefined where a later check refuses what was agreed. */
export function doneThen(then: ThenAgreed, current: JobDone["current"], log: WorkLog): DoneThen | undefined {
  const { revision, found, done, kept = false } = then;
  const none = { done: {}, log: { time: [], parts: [] }, rates: {} };
  const job: JobDone = { revisions: [revision], found, foundParts: kept, ...none, ...(current && { current }) };
  const all = allowedFor(job);
  if (!all.ok) return undefined;
  const whole = all.allowed;
  const { items } = whole.input;
  const at = (counts: Counts): ChargedRevision => {
    const left = Object.fromEntries(items.map(({ id }) => [id, counts[id] ?? 0]));
    const some = Object.keys(counts).length > 0 ? allowedFor({ ...job, done: left }) : undefined;
    if (some?.ok) return some.allowed;
    const input = { ...whole.input, items: items.map((item) => ({ ...item, count: 0 })) };
    return { input, sheet: { ...whole.sheet, lines: [], behind: [], adjustments: [] } };
  };
  const of = (some: WorkLog) => recorded(job, some, whole);
  const lineOf = (id: string, behind?: true) =>
    (behind ? whole.sheet.behind : whole.sheet.lines)?.find((line) => line.id === `labour:${id}`);

  const byTime = usualBasis(revision.input) === "time and parts";
  const [labour, parts, sources, fitted]: [Counts, Counts, Counts, Counts] = [{}, {}, {}, {}];
  const tickedOf = ({ id, count }: WorkItem) => Math.min(done[id] ?? 0, count);
  const ticks = items.flatMap((item) => (tickedOf(item) > 0 ? [[item.id, tickedOf(item)] as const] : []));
  const asTicked = new Map(at(Object.fromEntries(ticks)).sheet.lines.map(({ id, amount }) => [id, amount]));
  const [notTimed, notUsed, shares] = [new Set<string>(), new Set<string>(), new Map<string, Line>()];
  for (const item of items) {
    const { id, count } = item;
    if (count === 0 || !isCharged({ item }) || behindOf(item) !== undefined || isLooking(whole.input, id)) continue;
    const within = items.filter((each) => behindOf(each) === id);
    const ids = [id, ...within.map((each) => each.id)];
    const own = {
      time: log.time.filter(({ work }) => work.is === "item" && ids.includes(work.id)),
      parts: log.parts.filter(({ item: on }) => ids.includes(on)),
    };
    const ticked = tickedOf(item);
    const line = lineOf(id);
    const flat = line?.why?.rule === "fixed price";
    const part = within.length === 0 ? partOf(item) : undefined;
    const asLogged = part ? { ...own, parts: [] } : own;
    const share = line && shareOf(line, within, done, (each) => lineOf(each, true));
    const counted = ticked > 0 ? Math.min(asTicked.get(`labour:${id}`) ?? 0, line?.amount ?? 0) : -1;
    const byTick = Math.max(counted, share?.amount ?? -1);
    const worth = isLogged(asLogged) ? worthOf(of(asLogged)) : -1;
    // What is logged is of the pieces ticked off first, and where it is dearer than all was agreed at, it is charged at that.
    const dearer = line && worth >= line.amount;
    if (byTime && !flat ? own.time.length === 0 && ticked > 0 : dearer || (byTick >= 0 && byTick >= worth)) {
      if (share && !dearer && share.amount > counted) shares.set(id, share);
      else labour[id] = dearer && !(byTime && !flat) ? count : ticked;
      for (const each of ids) notTimed.add(each);
    }
    const used = Math.min(piecesIn(log, ids), count);
    const pieces = byTime && used > 0 ? used : Math.max(ticked, used);
    if (part && (!byTime || used === 0) && pieces > 0) parts[id] = pieces;
    if (part && !byTime) notUsed.add(id);
    if (notTimed.has(id)) for (const each of within) notUsed.add(each.id);
    if (part && pieces > 0) sources[id] = pieces;
    for (const each of within)
      fitted[each.id] = Math.max(piecesIn(log, [each.id]), done[each.id] ?? (ticked === count ? each.count : 0));
  }
  const [priced, bought] = [at(labour), at(parts)];
  // Pulling a part goes with it, but for time that is charged as it comes.
  const pulled = (id: string) => byTime && log.time.some(({ work }) => work.is === "pull" && id === `pull:${work.offer}`);
  const pulls = new Set(bought.sheet.lines.flatMap(({ id, sort }) => (sort === "donor pull" && !pulled(id) ? [id] : [])));
  const rest = of({
    time: log.time.filter(({ work }) =>
      work.is === "item" ? !notTimed.has(work.id) : work.is === "access" || !pulls.has(`pull:${work.offer}`),
    ),
    parts: log.parts.filter(({ item }) => !notUsed.has(item)),
  });
  const worked = of(log);
  const agreed = new Map(whole.sheet.lines.map((line) => [line.id, line]));
  const noDearer = (line: Line) => lessOf(line, agreed.get(line.id));
  const named = new Set(Object.keys(labour).map((id) => `labour:${id}`));
  const isOfParts = ({ sort, id }: Line) => sort === "part" || sort === "scarcity margin" || pulls.has(id);
  const timed = rest.work.flatMap(labourLines).map(({ line }) => line);
  const told = byTime
    ? [...partsTold("time and parts", worked.parts, whole), ...partsTold("fixed price", [], bought)]
    : partsTold("fixed price", worked.parts, at({ ...parts, ...fitted }));
  // Of an agreement before the last.
  const before = partsFitted(worked.parts.filter(({ agreed }) => !agreed).map((part) => ({ ...part, agreed: true })));
  return {
    lines: [
      ...priced.sheet.lines.filter(({ id }) => named.has(id)).map(noDearer),
      ...shares.values(),
      ...(byTime ? timed : timed.map(noDearer)),
      ...bought.sheet.lines.filter(isOfParts).map(noDearer),
      ...rest.parts.map(({ line }) => line),
    ],
    freight: at(sources).sheet.adjustments.filter(({ sort }) => sort === "freight"),
    ...{ whole, worked, fitted: [...told, ...before] },
  };
}

const piecesIn = ({ parts }: WorkLog, ids: readonly string[]): number =>
  parts.reduce((sum, { item, count }) => sum + (ids.includes(item) ? count : 0), 0);

const isLogged = ({ time, parts }: WorkLog): boolean => time.length + parts.length > 0;

const worthOf = ({ work, parts }: Recorded): number =>
  [...work.flatMap(labourLines), ...parts].reduce((sum, { line }) => sum + line.amount, 0);

const lessOf = (line: Line, agreed: Line | undefined): Line => (agreed && agreed.amount < line.amount ? agreed : line);

/** Of a service, whose work is ticked off piece by piece: by the time of it; undefined where none is. */
function shareOf(
  line: Line,
  within: readonly WorkItem[],
  done: ThenAgreed["done"],
  lineOf: (id: string) => Line | undefined,
): Line | undefined {
  const timed = within.some(({ id }) => (lineOf(id)?.minutes ?? 0) > 0);
  const weights = within.map(({ id, count }) => {
    const weight = timed ? toMilli(lineOf(id)?.minutes ?? 0) : count;
    return { all: weight, done: timesOver(weight, Math.min(done[id] ?? 0, count), Math.max(count, 1)) };
  });
  const sum = (of: "all" | "done") => weights.reduce((total, each) => total + each[of], 0);
  if (sum("done") === 0) return undefined;
  if (sum("done") === sum("all")) return line;
  const { count: _, unitPriceE4: __, minutes: ___, ...bare } = line;
  return { ...bare, amount: timesOver(line.amount, sum("done"), sum("all")) };
}
