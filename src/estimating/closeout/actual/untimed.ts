/**
 * Agreed work that nobody timed. Where it was done all the same it is reckoned with the time and the parts allowed for it, so that it
 * is neither earned nor lost; the log itself stays as it was, and nothing is learnt from it.
 */
import type { EstimateInput, WorkItem } from "../../input.js";
import { behindOf, type KnownPart, partOf } from "../../resolve.js";
import type { Line, PartResult } from "../../sheet.js";
import { agreedOf, type Charged, type ChargedRevision, type JobDone, type Untimed } from "../jobDone.js";
import type { PartUsed, TimeEntry, WorkLog } from "../log/workLog.js";

/** Pieces of work that were to be done, each with what is behind it, on which no time is logged. */
export function untimedWork(
  { items }: Pick<EstimateInput, "items">,
  { time, parts }: WorkLog,
  found: readonly string[],
): readonly { readonly item: WorkItem; readonly ids: readonly string[]; readonly partsLogged: boolean }[] {
  const timed = new Set(time.flatMap(({ work }) => (work.is === "item" ? [work.id] : [])));
  const used = new Set(parts.map(({ item }) => item));
  const charged = ({ count, certainty: is, id }: WorkItem) =>
    count > 0 && (is.is === "planned" || (is.is === "optional" ? is.chosen : found.includes(is.group ?? id)));
  return items
    .filter((item) => behindOf(item) === undefined && charged(item))
    .map((item) => {
      const ids = [item.id, ...items.filter((each) => behindOf(each) === item.id).map(({ id }) => id)];
      return { item, ids, partsLogged: ids.some((id) => used.has(id)) };
    })
    .filter(({ ids }) => !ids.some((id) => timed.has(id)));
}

/** Work that was timed and has parts, none of which is logged. */
export function partsUnlogged(input: Pick<EstimateInput, "items">, log: WorkLog, found: readonly string[]): readonly WorkItem[] {
  const open = new Set(untimedWork(input, log, found).flatMap(({ ids }) => ids));
  const used = new Set(log.parts.map(({ item }) => item));
  return input.items.filter((item) => {
    const { id, count, certainty: is, part } = item;
    const charged = count > 0 && (is.is === "planned" || (is.is === "optional" ? is.chosen : found.includes(is.group ?? id)));
    return charged && part !== undefined && partOf(item) !== undefined && !open.has(id) && !used.has(id);
  });
}

/** What was worked and used: the log, what nobody timed as it was allowed, and parts nobody logged as they were planned. */
export function workedIn(job: JobDone, log: WorkLog, { input, sheet }: ChargedRevision): WorkLog {
  const parts = [...agreedOf(job).sheet.parts, ...((job.foundParts && sheet.parts) || [])];
  const timed = job.untimed ? withUntimed(log, job.untimed, input, sheet, parts) : log;
  const unlogged = new Set(job.unlogged);
  const planned = input.items.filter(({ id }) => unlogged.has(id)).flatMap((item) => partsAllowed(item, parts));
  return planned.length === 0 ? timed : { ...timed, parts: [...timed.parts, ...planned] };
}

/** Opening goes with it where none was timed. `parts`: as they were allowed. */
function withUntimed(
  log: WorkLog,
  untimed: Untimed,
  { items }: Pick<EstimateInput, "items">,
  { lines, behind = [] }: Charged,
  parts: readonly PartResult[],
): WorkLog {
  const done = items.filter(({ id }) => Object.hasOwn(untimed, id));
  if (done.length === 0) return log;
  const all = [...lines, ...behind];
  const byId = new Map(all.map((line) => [line.id, line]));
  const minutesOf = (line: Line | undefined) => line?.minutes ?? 0;
  const entry = (id: string, work: TimeEntry["work"], minutes: number): TimeEntry[] =>
    minutes > 0 ? [{ id: `untimed ${id}`, work, person: "", minutes }] : [];
  const used = new Set(log.parts.map(({ item }) => item));
  const opening = log.time.some(({ work }) => work.is === "access") ? [] : all.filter(({ sort }) => sort === "access");
  const milli = opening.reduce((sum, line) => sum + Math.round(minutesOf(line) * 1000), 0);
  return {
    time: [
      ...log.time,
      ...done.flatMap(({ id }) => entry(id, { is: "item", id }, minutesOf(byId.get(`labour:${id}`)))),
      ...entry("access", { is: "access" }, milli / 1000),
    ],
    parts: [...log.parts, ...done.filter(({ id }) => !used.has(id)).flatMap((item) => partsAllowed(item, parts))],
  };
}

function partsAllowed(item: WorkItem, parts: readonly PartResult[]): PartUsed[] {
  const part = partOf(item);
  const bought = part && parts.find((each) => isOf(part, each));
  if (!part || !bought || bought.charged <= 0 || item.count <= 0) return [];
  const { cost, charged } = bought;
  return [
    { id: `untimed part ${item.id}`, item: item.id, part, count: item.count, paid: { price: cost, per: charged }, state: "new" },
  ];
}

const isOf = (part: KnownPart, { type, kind }: PartResult): boolean =>
  "kind" in part ? kind === part.kind : kind === undefined && type === part.type;
